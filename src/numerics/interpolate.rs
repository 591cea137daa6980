//! Values between points: straight lines through a table, smooth steps, first crossings.

/// The value at `x` on the straight lines through `points`, sorted by their first number; flat beyond the ends.
pub fn linear(points: &[(f64, f64)], x: f64) -> f64 {
    let Some(first) = points.first() else { return f64::NAN };
    let next = points.partition_point(|p| p.0 <= x);
    if next == 0 {
        return first.1;
    }
    let (x0, y0) = points[next - 1];
    points.get(next).map_or(y0, |(x1, y1)| y0 + (y1 - y0) * (x - x0) / (x1 - x0))
}

/// The value at `x` of a curve given at rising times `xs`; flat beyond the ends.
pub fn curve(xs: &[f64], ys: &[f64], x: f64) -> f64 {
    let next = xs.partition_point(|t| *t <= x);
    if xs.is_empty() || xs.len() != ys.len() {
        return f64::NAN;
    }
    if next == 0 {
        return ys[0];
    }
    if next == xs.len() {
        return ys[next - 1];
    }
    let (x0, x1) = (xs[next - 1], xs[next]);
    ys[next - 1] + (ys[next] - ys[next - 1]) * (x - x0) / (x1 - x0)
}

/// The first place where a curve comes down to `level` or below; `None` if it never does.
pub fn first_below(xs: &[f64], ys: &[f64], level: f64) -> Option<f64> {
    let at = ys.iter().position(|y| *y <= level)?;
    if at == 0 {
        return xs.first().copied();
    }
    let (y0, y1) = (ys[at - 1], ys[at]);
    Some(xs[at - 1] + (xs[at] - xs[at - 1]) * (y0 - level) / (y0 - y1))
}

/// 0 below `low`, 1 above `high`, a smooth cubic between: `3u² − 2u³`.
pub fn smooth_step(low: f64, high: f64, x: f64) -> f64 {
    let u = ((x - low) / (high - low)).clamp(0.0, 1.0);
    u * u * (3.0 - 2.0 * u)
}

/// Logistic step: 0 far below `middle`, 1 far above.
pub fn logistic(x: f64, middle: f64, width: f64) -> f64 {
    1.0 / (1.0 + (-(x - middle) / width).exp())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_ends() {
        let points = [(0.0, 1.0), (2.0, 3.0)];
        assert!((linear(&points, 1.0) - 2.0).abs() < 1e-12);
        assert!((linear(&points, -5.0) - 1.0).abs() < 1e-12);
        assert!((linear(&points, 9.0) - 3.0).abs() < 1e-12);
        assert!((curve(&[0.0, 2.0], &[1.0, 3.0], 0.5) - 1.5).abs() < 1e-12);
        assert!((curve(&[0.0, 2.0], &[1.0, 3.0], 2.0) - 3.0).abs() < 1e-12);
    }

    #[test]
    fn crossings() {
        let at = first_below(&[0.0, 1.0, 2.0], &[6.0, 5.0, 4.0], 4.6).unwrap();
        assert!((at - 1.4).abs() < 1e-12);
        assert_eq!(first_below(&[0.0, 1.0], &[6.0, 5.0], 4.0), None);
    }
}

//! Means, variances and how two lists of numbers go together.

/// The mean; not a number where there is none.
pub fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// The variance about the mean, over `n − 1`; nought for fewer than two numbers.
pub fn variance(values: &[f64]) -> f64 {
    covariance(values, values)
}

/// The covariance of two lists of one length, over `n − 1`; nought for fewer than two pairs.
pub fn covariance(a: &[f64], b: &[f64]) -> f64 {
    let n = a.len().min(b.len());
    if n < 2 {
        return 0.0;
    }
    let (ma, mb) = (mean(&a[..n]), mean(&b[..n]));
    a.iter().zip(b).map(|(x, y)| (x - ma) * (y - mb)).sum::<f64>() / (n - 1) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_a_few_numbers() {
        assert!((variance(&[1.0, 2.0, 3.0, 4.0]) - 5.0 / 3.0).abs() < 1e-12);
        assert!((covariance(&[1.0, 2.0, 3.0], &[3.0, 2.0, 1.0]) + 1.0).abs() < 1e-12);
        assert_eq!(variance(&[7.0]), 0.0);
    }
}

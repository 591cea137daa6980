//! Small symmetric systems by their lower triangle.

/// The lower triangle `L` of a symmetric, positive matrix `A = L Lᵀ`, row by row.
///
/// Source: published, the usual factoring of Cholesky (Golub and Van Loan, Matrix Computations, 4.2).
#[derive(Clone, Debug, PartialEq)]
pub struct Cholesky(Vec<Vec<f64>>);

impl Cholesky {
    /// The triangle of a matrix; `None` where it is not positive.
    pub fn of(a: &[Vec<f64>]) -> Option<Self> {
        let mut l: Vec<Vec<f64>> = Vec::with_capacity(a.len());
        for (i, row) in a.iter().enumerate() {
            let mut next = Vec::with_capacity(i + 1);
            for (above, a) in l.iter().zip(row) {
                let done: f64 = next.iter().zip(above).map(|(x, y): (&f64, &f64)| x * y).sum();
                next.push((a - done) / above[next.len()]);
            }
            let left = row.get(i)? - next.iter().map(|x| x * x).sum::<f64>();
            if left <= 0.0 || !left.is_finite() {
                return None;
            }
            next.push(left.sqrt());
            l.push(next);
        }
        Some(Self(l))
    }

    /// The rows of the triangle.
    pub fn rows(&self) -> &[Vec<f64>] {
        &self.0
    }

    /// `L⁻¹ b`: numbers with this scatter as numbers that scatter by one each.
    pub fn whiten(&self, b: &[f64]) -> Vec<f64> {
        let mut out: Vec<f64> = Vec::with_capacity(b.len());
        for (row, b) in self.0.iter().zip(b) {
            let done: f64 = row.iter().zip(&out).map(|(l, y)| l * y).sum();
            out.push((b - done) / row[out.len()]);
        }
        out
    }

    /// `A⁻¹ b`.
    pub fn solve(&self, b: &[f64]) -> Vec<f64> {
        let mut x = self.whiten(b);
        for i in (0..x.len()).rev() {
            x[i] /= self.0[i][i];
            for k in 0..i {
                x[k] -= self.0[i][k] * x[i];
            }
        }
        x
    }

    /// `A⁻¹`.
    pub fn inverse(&self) -> Vec<Vec<f64>> {
        let n = self.0.len();
        let unit = |k: usize| (0..n).map(|i| if i == k { 1.0 } else { 0.0 }).collect::<Vec<f64>>();
        (0..n).map(|k| self.solve(&unit(k))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_system_is_solved() {
        let a = vec![vec![4.0, 2.0, 0.6], vec![2.0, 5.0, 1.0], vec![0.6, 1.0, 3.0]];
        let triangle = Cholesky::of(&a).unwrap();
        let x = triangle.solve(&[1.0, -2.0, 0.5]);
        for (row, b) in a.iter().zip([1.0, -2.0, 0.5]) {
            let sum: f64 = row.iter().zip(&x).map(|(a, x)| a * x).sum();
            assert!((sum - b).abs() < 1e-12);
        }
        let inverse = triangle.inverse();
        for (i, row) in a.iter().enumerate() {
            for (j, column) in inverse.iter().enumerate() {
                let sum: f64 = row.iter().zip(column).map(|(a, b)| a * b).sum();
                assert!((sum - if i == j { 1.0 } else { 0.0 }).abs() < 1e-12);
            }
        }
        // The square of what was made to scatter by one is the form of the matrix.
        let white: f64 = triangle.whiten(&[1.0, -2.0, 0.5]).iter().map(|v| v * v).sum();
        let form: f64 = x.iter().zip([1.0, -2.0, 0.5]).map(|(x, b)| x * b).sum();
        assert!((white - form).abs() < 1e-12);
    }

    #[test]
    fn what_is_not_positive_has_no_triangle() {
        assert_eq!(Cholesky::of(&[vec![1.0, 2.0], vec![2.0, 1.0]]), None);
        assert_eq!(Cholesky::of(&[vec![f64::NAN]]), None);
    }
}

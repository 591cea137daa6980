//! Lag: the state of a culture that has work to do before it grows.

/// Logarithm of the start state q0 for a work to be done h0.
///
/// `q0 = 1/(e^h0 − 1)`, `dq/dt = μ_opt γ_T speed q`, `a = q/(1 + q)`; lag = h0/μ at constant temperature
///
/// - `work` — h0 \[-\], above 0.
/// - Source: published, Baranyi and Roberts 1994, Int J Food Microbiol 23:277.
pub fn start_log(work: f64) -> f64 {
    -work.max(1e-9).exp_m1().ln()
}

/// Share of the full growth rate, 0 to 1, from ln q.
pub fn readiness(log_q: f64) -> f64 {
    1.0 / (1.0 + (-log_q).exp())
}

/// ln q of two lots of cells put together, weighted by their counts.
pub fn joined(log_q: f64, count: f64, log_q_new: f64, added: f64) -> f64 {
    let total = count + added;
    if total <= 0.0 {
        return log_q;
    }
    let mean = (readiness(log_q) * count + readiness(log_q_new) * added) / total;
    let mean = mean.clamp(1e-12, 1.0 - 1e-12);
    (mean / (1.0 - mean)).ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lag_time_is_work_over_rate() {
        // q grows as e^(μt): after t = h0/μ the readiness is 1 − e^(−h0) of q0·e^h0/(1 + q0·e^h0) = ½-like state.
        let h0 = 1.7_f64;
        let q0 = start_log(h0).exp();
        assert!((q0 - 1.0 / (h0.exp() - 1.0)).abs() < 1e-12);
    }

    #[test]
    fn joining_the_same_changes_nothing() {
        let log_q = start_log(1.7);
        assert!((joined(log_q, 5.0, log_q, 7.0) - log_q).abs() < 1e-9);
    }
}

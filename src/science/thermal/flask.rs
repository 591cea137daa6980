//! How fast a pot that is only kept warm loses its warmth, from what it read after some hours.

use potset_numerics::{moments, quantile};

/// One reading of a pot of water that nothing heats.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooling {
    /// What the pot was filled at, °C.
    pub filled_c: f64,
    /// What it reads after these hours, °C.
    pub reads_c: f64,
    pub after_h: f64,
    /// The room around it, °C.
    pub room_c: f64,
}

impl Cooling {
    /// Time constant of the pot, h. Nothing where the pot has not cooled, or is no warmer than the room.
    ///
    /// `τ = t / ln((T0 − Tr)/(T − Tr))`
    ///
    /// - `T0` — filled at, `T` — read after `t`, `Tr` — room, °C; `t`, `τ` — h.
    /// - Source: published, Newton's law of cooling (heat-transfer textbooks), solved for the time constant.
    pub fn time_constant(&self) -> Option<f64> {
        let tau_h = self.after_h / self.fall();
        (self.after_h > 0.0 && self.reads_c > self.room_c && tau_h > 0.0 && tau_h.is_finite())
            .then_some(tau_h)
    }

    /// `ln((T0 − Tr)/(T − Tr))`.
    fn fall(&self) -> f64 {
        ((self.filled_c - self.room_c) / (self.reads_c - self.room_c)).ln()
    }

    /// How far the logarithm of the time constant may be off, where each temperature may be off by `error_c`, °C.
    ///
    /// `δ = e/L √(1/a² + 1/b² + (1/b − 1/a)²)`, `a = T0 − Tr`, `b = T − Tr`, `L = ln(a/b)`
    ///
    /// - Source: derived, the slopes of `ln τ` by the three temperatures; each is off by itself (assumed: an error that all three
    ///   share would hardly matter, so `δ` is rather too large than too small).
    pub fn off_by(&self, error_c: f64) -> f64 {
        let (a, b) = (1.0 / (self.filled_c - self.room_c), 1.0 / (self.reads_c - self.room_c));
        error_c / self.fall() * (a * a + b * b + (b - a) * (b - a)).sqrt()
    }
}

/// Several time constants as one, with how far its logarithm may be off. Nothing of none.
///
/// `ln τ = Σ ln τ_i / n`; off by `√(Σ δ_i²)/n`, or by `1.645 s/√n` where the readings differ by more than that.
///
/// - `all` — `(τ_i, δ_i)`, h and the logarithm of a factor, as bounds of the middle 90 %; `s` — the deviation of the `ln τ_i`.
/// - Source: derived, the error of a mean.
pub fn mean(all: &[(f64, f64)]) -> Option<(f64, f64)> {
    let n = all.len() as f64;
    let logs: Vec<f64> = all.iter().map(|(tau_h, _)| tau_h.ln()).collect();
    let differ = quantile::normal(0.95) * (moments::variance(&logs) / n).sqrt();
    let told = all.iter().map(|(_, off)| off * off).sum::<f64>().sqrt() / n;
    (!all.is_empty()).then(|| (moments::mean(&logs).exp(), told.max(differ)))
}

/// Hours until half of the warmth above the room is lost: `τ ln 2`. Source: derived from Newton's law of cooling.
pub fn half_lost_h(tau_h: f64) -> f64 {
    tau_h * std::f64::consts::LN_2
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::thermal::Course;

    const READ: Cooling = Cooling { filled_c: 42.0, reads_c: 36.0, after_h: 12.0, room_c: 21.0 };

    #[test]
    fn there_and_back() {
        let tau_h = READ.time_constant().unwrap();
        // 12 h / ln(21/15).
        assert!((tau_h - 35.664).abs() < 1e-3, "{tau_h}");
        assert!((Course::from(0.0).newton(42.0, 21.0, tau_h, 12.0) - 36.0).abs() < 1e-9);
        assert!((Course::from(0.0).newton(42.0, 21.0, tau_h, half_lost_h(tau_h)) - 31.5).abs() < 1e-9);
    }

    #[test]
    fn what_has_not_cooled_tells_nothing() {
        for (reads_c, after_h) in [(42.0, 12.0), (43.0, 12.0), (21.0, 12.0), (20.0, 12.0), (36.0, 0.0)] {
            assert_eq!(
                Cooling { reads_c, after_h, ..READ }.time_constant(),
                None,
                "{reads_c} after {after_h}"
            );
        }
        // A room warmer than the pot warms it.
        assert_eq!(Cooling { room_c: 50.0, ..READ }.time_constant(), None);
    }

    #[test]
    fn errors_are_those_of_moved_temperatures() {
        let at = |read: Cooling| read.time_constant().unwrap().ln();
        let e = 1e-4;
        let moved = [
            at(Cooling { filled_c: 42.0 + e, ..READ }),
            at(Cooling { reads_c: 36.0 + e, ..READ }),
            at(Cooling { room_c: 21.0 + e, ..READ }),
        ];
        let all = moved.map(|v| (v - at(READ)).powi(2)).iter().sum::<f64>().sqrt();
        assert!((READ.off_by(e) / all - 1.0).abs() < 1e-3);
        // A longer wait tells more.
        assert!(Cooling { reads_c: 30.0, ..READ }.off_by(1.0) < READ.off_by(1.0));
    }

    #[test]
    fn several_are_surer_unless_they_differ() {
        assert_eq!(mean(&[]), None);
        let (one, off) = mean(&[(20.0, 0.2)]).unwrap();
        assert!((one - 20.0).abs() < 1e-9 && (off - 0.2).abs() < 1e-12);
        let (four, off) = mean(&[(20.0, 0.2); 4]).unwrap();
        assert!((four - 20.0).abs() < 1e-9 && (off - 0.1).abs() < 1e-12);
        let (between, off) = mean(&[(10.0, 0.1), (40.0, 0.1)]).unwrap();
        assert!((between - 20.0).abs() < 1e-9 && off > 1.0, "{between} {off}");
    }
}

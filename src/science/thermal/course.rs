//! T(t) in pieces: Newton's law of heating and cooling, or straight lines between readings.

/// One stretch of the course.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Piece {
    /// `T = Tenv + (T0 − Tenv) e^(−(t − t0)/τ)`. Source: published, Newton's law of cooling (heat-transfer textbooks).
    Newton { from_c: f64, around_c: f64, tau_h: f64 },
    /// A straight line.
    Line { from_c: f64, to_c: f64 },
}

/// The temperature of the pot over a time span; each switch of the surroundings starts a new piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Course {
    /// Start times of the pieces, h, rising; then the end.
    starts: Vec<f64>,
    pieces: Vec<Piece>,
    end_h: f64,
}

impl Course {
    /// A course that starts at a time.
    pub const fn from(start_h: f64) -> Self {
        Self { starts: Vec::new(), pieces: Vec::new(), end_h: start_h }
    }

    /// Adds a piece of some length, h. Pieces without length are passed over.
    pub fn add(&mut self, piece: Piece, hours: f64) {
        if hours > 1e-9 {
            self.starts.push(self.end_h);
            self.pieces.push(piece);
            self.end_h += hours;
        }
    }

    /// Adds a stretch in surroundings of a temperature. Returns the temperature at its end.
    pub fn newton(&mut self, from_c: f64, around_c: f64, tau_h: f64, hours: f64) -> f64 {
        let piece = Piece::Newton { from_c, around_c, tau_h };
        self.add(piece, hours);
        at_in(piece, hours, hours)
    }

    /// Adds the first hours of a piece of another course.
    pub fn add_head(&mut self, other: &Self, i: usize, hours: f64) {
        let Some(piece) = other.pieces.get(i) else { return };
        let start = other.starts[i];
        let piece = match *piece {
            Piece::Line { from_c, .. } => Piece::Line { from_c, to_c: other.in_piece(i, start + hours) },
            newton @ Piece::Newton { .. } => newton,
        };
        self.add(piece, hours);
    }

    /// Where the course ends, h.
    pub const fn end_h(&self) -> f64 {
        self.end_h
    }

    /// Where it starts, h.
    pub fn start_h(&self) -> f64 {
        self.starts.first().copied().unwrap_or(self.end_h)
    }

    /// Times where a new piece starts, the start of all left out.
    pub fn breaks(&self) -> &[f64] {
        self.starts.get(1..).unwrap_or(&[])
    }

    /// Temperature at a time, °C; the first and last piece reach beyond the ends.
    pub fn at(&self, t_h: f64) -> f64 {
        let i = self.starts.partition_point(|s| *s <= t_h).saturating_sub(1);
        self.in_piece(i, t_h)
    }

    /// Temperature at a time, by the law of one piece.
    pub fn in_piece(&self, i: usize, t_h: f64) -> f64 {
        let Some(piece) = self.pieces.get(i) else { return f64::NAN };
        let end = self.starts.get(i + 1).copied().unwrap_or(self.end_h);
        at_in(*piece, t_h - self.starts[i], end - self.starts[i])
    }

    /// The temperature of a piece where it does not change, °C.
    pub fn steady(&self, i: usize) -> Option<f64> {
        match *self.pieces.get(i)? {
            Piece::Newton { from_c: a, around_c: b, .. } | Piece::Line { from_c: a, to_c: b } => {
                (a == b).then_some(b)
            }
        }
    }

    /// Piece in force from a time on.
    pub fn piece_at(&self, t_h: f64) -> usize {
        self.starts.partition_point(|s| *s <= t_h + 1e-9).saturating_sub(1)
    }

    /// Lowest temperature from the start to a time, °C: every piece is monotone, so its ends tell.
    pub fn lowest_until(&self, t_h: f64) -> f64 {
        self.spans()
            .enumerate()
            .filter(|(_, (start, _))| *start < t_h)
            .map(|(i, (start, end))| self.in_piece(i, start).min(self.in_piece(i, end.min(t_h))))
            .fold(f64::INFINITY, f64::min)
    }

    /// Spans between the starts of pieces and the times at which the temperature comes to a level: within each the
    /// temperature stays on one side of every level.
    ///
    /// - `levels` — °C. Result — (start h, end h), in the order of time.
    pub fn cut_at(&self, levels: &[f64]) -> Vec<(f64, f64)> {
        let mut cuts: Vec<f64> = self.spans().flat_map(|(start, end)| [start, end]).collect();
        for (i, (start, end)) in self.spans().enumerate() {
            cuts.extend(levels.iter().filter_map(|level| self.crossing(i, (start, end), *level)));
        }
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        cuts.windows(2).map(|pair| (pair[0], pair[1])).collect()
    }

    /// When the temperature comes to a level inside a piece, h.
    fn crossing(&self, i: usize, (start, end): (f64, f64), level: f64) -> Option<f64> {
        let (from, to) = (self.in_piece(i, start), self.in_piece(i, end));
        if (from - level) * (to - level) >= 0.0 {
            return None;
        }
        let since = match *self.pieces.get(i)? {
            Piece::Newton { from_c, around_c, tau_h } => time_to(from_c, level, around_c, tau_h)?,
            Piece::Line { .. } => (level - from) / (to - from) * (end - start),
        };
        Some(start + since)
    }

    /// Lengths and laws of the pieces: (start h, end h).
    pub fn spans(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        let ends = self.breaks().iter().copied().chain(std::iter::once(self.end_h));
        self.starts.iter().copied().zip(ends)
    }
}

fn at_in(piece: Piece, since_h: f64, length_h: f64) -> f64 {
    match piece {
        Piece::Newton { from_c, around_c, tau_h } => {
            let gap = from_c - around_c;
            if gap == 0.0 { around_c } else { around_c + gap * (-since_h / tau_h).exp() }
        }
        Piece::Line { from_c, to_c } => from_c + (to_c - from_c) * (since_h / length_h).clamp(0.0, 1.0),
    }
}

/// Time to get from one temperature to another in given surroundings, h; `None` if it is never reached.
///
/// `t = −τ ln((T − Tenv)/(T0 − Tenv))`
pub fn time_to(from_c: f64, to_c: f64, around_c: f64, tau_h: f64) -> Option<f64> {
    let share = (to_c - around_c) / (from_c - around_c);
    if (from_c - to_c).abs() < 1e-9 {
        Some(0.0)
    } else if share > 0.0 && share < 1.0 {
        Some(-tau_h * share.ln())
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_join() {
        let mut course = Course::from(0.0);
        let end = course.newton(20.0, 40.0, 1.0, 2.0);
        course.newton(end, 20.0, 3.0, 5.0);
        assert!((course.at(2.0) - end).abs() < 1e-9);
        assert!((course.at(1.0) - (40.0 - 20.0 * (-1.0_f64).exp())).abs() < 1e-9);
        assert_eq!(course.breaks(), [2.0]);
        assert!((course.end_h() - 7.0).abs() < 1e-12);
    }

    #[test]
    fn cuts_lie_where_the_levels_are() {
        let mut course = Course::from(0.0);
        let end = course.newton(20.0, 90.0, 1.0, 2.0);
        course.newton(end, 20.0, 3.0, 10.0);
        let spans = course.cut_at(&[57.0, 21.0]);
        assert!((spans[0].0, spans.last().unwrap().1) == (0.0, course.end_h()));
        for (from, to) in spans {
            let (a, b) = (course.at(from + 1e-6), course.at(to - 1e-6));
            assert!(
                [57.0, 21.0].iter().all(|level| (a - level) * (b - level) > 0.0),
                "{from} to {to}: {a}, {b}"
            );
        }
    }

    #[test]
    fn time_to_is_the_inverse() {
        let hours = time_to(20.0, 38.0, 40.0, 1.0).unwrap();
        assert!((hours - 10.0_f64.ln()).abs() < 1e-9);
        assert_eq!(time_to(20.0, 41.0, 40.0, 1.0), None);
        assert_eq!(time_to(20.0, 10.0, 40.0, 1.0), None);
    }

    #[test]
    fn one_litre_jar_in_the_fridge() {
        // Source: derived, e^(−t/τ) worked by hand: 1 L jar at τ 2.4 h in 4 °C air goes 42 → 10 °C in 4.3 h, → 5 °C in 8.6 h.
        assert!((time_to(42.0, 10.0, 4.0, 2.4).unwrap() - 4.3).abs() < 0.4);
        assert!((time_to(42.0, 5.0, 4.0, 2.4).unwrap() - 8.6).abs() < 0.4);
    }
}

//! Shares of a difference over the orders in which parts can be changed, without mixes that never get there.

/// Shares of the difference between the first design and the second; nothing where one of both never gets there.
///
/// Each order of changing the parts one after the other leads from the first to the second through some mixes, and each part
/// makes the difference between the mix just before and the one just after its change. A share is the mean over the orders.
/// Where some mixes never get there, only those orders count that pass the fewest of them, and they are stepped over: what
/// several changes do together before the next mix that gets there is split equally among them. So the shares add up to the
/// whole difference to rounding, and a part that does nothing to any mix has no share.
///
/// - `values` — of the mixes: bit `i` of the place tells whether part `i` is that of the second design.
///
/// Source: published, Shapley 1953, where all get there: then every order counts. The rest derived.
pub fn shared(values: &[Option<f64>], n: usize) -> Option<Vec<f64>> {
    if values.first()?.is_none() || values.last()?.is_none() {
        return None;
    }
    let mut orders = Orders {
        values,
        n,
        order: Vec::with_capacity(n),
        fewest: usize::MAX,
        counted: 0.0,
        sums: vec![0.0; n],
    };
    orders.go_on(0, 0);
    let Orders { sums, counted, .. } = orders;
    Some(sums.into_iter().map(|sum| sum / counted).collect())
}

/// A walk over all orders; of six parts there are 720.
struct Orders<'a> {
    values: &'a [Option<f64>],
    n: usize,
    /// Parts that are changed, in turn.
    order: Vec<usize>,
    /// Fewest mixes without a value that an order has passed.
    fewest: usize,
    /// Orders that passed as few, and the sums of what their parts made.
    counted: f64,
    sums: Vec<f64>,
}

impl Orders<'_> {
    fn go_on(&mut self, set: usize, passed: usize) {
        if passed > self.fewest {
            return;
        }
        if self.order.len() == self.n {
            self.count(passed);
            return;
        }
        for part in 0..self.n {
            if set >> part & 1 == 0 {
                let next = set | 1 << part;
                self.order.push(part);
                self.go_on(next, passed + usize::from(self.values[next].is_none()));
                self.order.pop();
            }
        }
    }

    /// Adds what each part of a whole order made.
    fn count(&mut self, passed: usize) {
        if passed < self.fewest {
            (self.fewest, self.counted) = (passed, 0.0);
            self.sums.fill(0.0);
        }
        self.counted += 1.0;
        let (mut set, mut before, mut together) = (0, self.values[0].unwrap_or(0.0), 0);
        for (i, part) in self.order.iter().enumerate() {
            set |= 1 << part;
            together += 1;
            if let Some(now) = self.values[set] {
                let each = (now - before) / together as f64;
                for part in &self.order[i + 1 - together..=i] {
                    self.sums[*part] += each;
                }
                (before, together) = (now, 0);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_numerics::samples::Generator;

    #[test]
    fn without_gaps_it_is_the_mean_over_all_orders() {
        // Two parts that do 1 and 2 alone, and 7 together: each has half of the 4 that they make together.
        let values = [10.0, 11.0, 12.0, 17.0].map(Some);
        assert_eq!(shared(&values, 2).unwrap(), [3.0, 4.0]);
    }

    #[test]
    fn orders_through_what_never_gets_there_do_not_count() {
        // Part 1 first never gets there: what is left is part 0 first.
        assert_eq!(shared(&[Some(9.0), Some(8.0), None, Some(24.0)], 2).unwrap(), [-1.0, 16.0]);
        // No order is free of it: both share what they do together; a part that does nothing has none of it.
        let values = [Some(9.0), None, None, Some(24.0), Some(9.0), None, None, Some(24.0)];
        assert_eq!(shared(&values, 3).unwrap(), [7.5, 7.5, 0.0]);
        assert_eq!(shared(&[Some(1.0), None], 1), None);
    }

    #[test]
    fn shares_add_up_whatever_never_gets_there() {
        let mut draw = Generator::new(11);
        for n in 1..=6_usize {
            for _ in 0..40 {
                let mut values: Vec<Option<f64>> =
                    (0..1_usize << n).map(|_| (draw.unit() < 0.5).then(|| 50.0 * draw.unit())).collect();
                let last = values.len() - 1;
                (values[0], values[last]) = (Some(9.0), Some(24.0));
                let sum: f64 = shared(&values, n).unwrap().iter().sum();
                assert!((sum - 15.0).abs() < 1e-9, "{n} parts: {sum}");
            }
        }
    }
}

//! What of the numbers is shown, and in which order.

use potset_forecast::numbers::{Kind, Number};

/// In which order the numbers stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Order {
    /// As in the data.
    #[default]
    Data,
    Name,
    Kind,
    Source,
}

/// What was asked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Filter {
    pub text: String,
    /// None on: all kinds.
    pub kinds: [bool; Kind::ALL.len()],
    pub only_used: bool,
    pub order: Order,
}

impl Filter {
    /// Places of the numbers that fit, in order.
    pub fn of(&self, all: &[Number]) -> Vec<usize> {
        let words: Vec<String> = self.text.split_whitespace().map(str::to_lowercase).collect();
        let any = self.kinds.contains(&true);
        let fits = |n: &Number| {
            (!self.only_used || n.used) && (!any || self.kinds[n.kind.index()]) && {
                let text = format!("{} {} {} {}", n.title(), n.source, n.key, n.unit).to_lowercase();
                words.iter().all(|word| text.contains(word))
            }
        };
        let mut out: Vec<usize> = (0..all.len()).filter(|i| fits(&all[*i])).collect();
        match self.order {
            Order::Data => {}
            Order::Name => out.sort_by_cached_key(|i| all[*i].title().to_lowercase()),
            Order::Kind => out.sort_by_key(|i| all[*i].kind),
            Order::Source => out.sort_by_cached_key(|i| all[*i].source.to_lowercase()),
        }
        out
    }
}

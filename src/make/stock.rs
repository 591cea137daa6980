//! Packets of culture in this kitchen: how old each is, how much of it still lives, and which to use first.

use potset_base::clock::Moment;
use potset_doc::packets::KeptPacket;
use potset_science::kinetics::ageing;
use potset_science::params::Laws;

/// A packet, looked at on a day.
#[derive(Clone, Debug, PartialEq)]
pub struct InStock {
    /// Its place in the kitchen's list.
    pub place: usize,
    /// Days since it was got; nothing where the day cannot be read.
    pub days: Option<f64>,
    /// Share of its cells that live still, 0 to 1.
    pub living: Option<f64>,
    /// It is the oldest of its culture that has something left.
    pub first: bool,
}

/// All packets on a day, in the order of the list.
///
/// - Source of what dies: as [`ageing::dry`].
pub fn stock(packets: &[KeptPacket], today: Moment, laws: &Laws) -> Vec<InStock> {
    let days = |packet: &KeptPacket| {
        let since = Moment::parse(&format!("{} 00:00", packet.since))?;
        Some((today.hours_since(since) / 24.0).floor().max(0.0))
    };
    let all = packets.iter().enumerate().map(|(place, packet)| {
        let days = days(packet);
        let living = days.map(|d| 10.0_f64.powf(-ageing::dry(d, packet.kept_c, packet.opened, laws).decades));
        let older = |other: &&KeptPacket| {
            other.culture == packet.culture && other.left_g > 0.0 && other.since < packet.since
        };
        let first = packet.left_g > 0.0 && !packets.iter().any(|other| older(&other));
        InStock { place, days, living, first }
    });
    all.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::lines::Packet;
    use potset_doc::{Kitchen, Learnt, assets};
    use potset_forecast::scenario::Scenario;

    fn packet(since: &str, kept_c: f64, opened: bool, left_g: f64) -> KeptPacket {
        KeptPacket {
            culture: "coconut_adjunct".to_owned(),
            packet: Packet { grams: 5.0, litres: 10.0 },
            left_g,
            since: since.to_owned(),
            kept_c,
            opened,
        }
    }

    #[test]
    fn the_oldest_with_something_left_is_first_and_warmth_and_air_cost_cells() {
        let (design, pantry) = (assets::demo("coconut-pot.ron").unwrap(), assets::pantry().unwrap());
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let ask = Scenario { design: &design, pantry: &pantry, kitchen: &kitchen, learnt: &learnt };
        let run = ask.run().unwrap();
        let all = [
            packet("2026-03-01", -18.0, false, 0.0),
            packet("2026-06-01", -18.0, false, 2.0),
            packet("2026-06-02", 4.0, false, 5.0),
            packet("2026-06-02", 4.0, true, 5.0),
            packet("soon", 4.0, true, 5.0),
        ];
        let today = Moment::parse("2026-11-30 09:00").unwrap();
        let told = stock(&all, today, &run.mix.laws);
        assert_eq!(told.iter().map(|p| p.first).collect::<Vec<_>>(), [false, true, false, false, false]);
        assert_eq!(told[1].days, Some(182.0));
        let living = |i: usize| told[i].living.unwrap();
        assert!(living(1) > living(2) && living(2) > living(3), "{told:?}");
        assert_eq!(told[4].living, None);
    }
}

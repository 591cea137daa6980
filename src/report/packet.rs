//! How a packet of culture is split, in sentences: what to do, and how far it may be out.

use crate::advice::living_words;
use potset_base::number::{self, NBSP};
use potset_make::packet::{DryMix, Split, SplitAsk, Way};
use potset_make::stock::InStock;

/// Chance below which nobody need think of it. Source: assumed, 1 in 1000.
const NEXT_TO_NONE: f64 = 1e-3;

/// Within how many standard deviations nine of ten pots are.
const NINE_OF_TEN: f64 = 1.645;

/// What way it is, for a heading.
pub fn way(way: Way) -> String {
    match way {
        Way::Whole => "Use the whole packet".to_owned(),
        Way::Weighed => "Weigh it as it is".to_owned(),
        Way::Mixed(1) => "Mix it tenfold, then weigh the mix".to_owned(),
        Way::Mixed(times) => format!("Mix it tenfold {} times, then weigh the last mix", count(times)),
        Way::Parts(parts) => format!("Part it by eye into {parts}"),
        Way::Pinch => "A pinch that nobody weighs".to_owned(),
    }
}

fn count(times: u32) -> &'static str {
    match times {
        2 => "two",
        3 => "three",
        _ => "several",
    }
}

/// What to do, a sentence each.
pub fn steps(split: &Split, ask: &SplitAsk) -> Vec<String> {
    let pot = format!("{}{NBSP}L", number::rough(ask.pot_litres));
    let mut said: Vec<String> =
        split.mixes.iter().enumerate().map(|(i, mix)| mixing(mix, i > 0, &ask.packet.grams)).collect();
    said.push(match split.way {
        Way::Whole => format!("Stir all of it into {pot}"),
        Way::Weighed => format!("Weigh {} into {pot}", grams(split.grams)),
        Way::Mixed(_) => format!("Weigh {} of the mix into {pot}", grams(split.grams)),
        Way::Parts(parts) => {
            format!("Pour it on paper, part it into {parts} equal heaps, and stir one into {pot}")
        }
        Way::Pinch => format!("It would have to be {} for {pot}", grams(split.grams)),
    });
    if !split.mixes.is_empty() {
        said.push(
            "Write culture, mix and day on the jar. Keep it dry and frozen, for three months at most"
                .to_owned(),
        );
    }
    said
}

fn mixing(mix: &DryMix, again: bool, packet_g: &f64) -> String {
    let portions: Vec<String> = mix.portions().iter().map(|g| grams(*g)).collect();
    let of = match (again, mix.all) {
        (false, true) => format!("Mix the whole packet ({})", grams(*packet_g)),
        (false, false) => format!("Mix {} of the culture", grams(mix.of_g)),
        (true, true) => format!("Mix all of that ({})", grams(mix.of_g)),
        (true, false) => format!("Mix {} of that", grams(mix.of_g)),
    };
    format!(
        "{of} with {} of dry sugar or starch. Stir that in bit by bit: {}",
        grams(mix.carrier_g),
        portions.join(", ")
    )
}

/// A weight as a person weighs it.
fn grams(g: f64) -> String {
    format!("{}{NBSP}g", number::rough(g))
}

/// How old a packet of the kitchen is, and what that did to it.
pub fn in_stock(told: &InStock) -> String {
    let first = if told.first { "Use this one first. " } else { "" };
    let Some((days, living)) = told.days.zip(told.living) else {
        return format!("{first}Since when it is there cannot be read");
    };
    let alive =
        if living > 0.995 { "as good as new".to_owned() } else { format!("{} alive", living_words(living)) };
    format!("{first}{}{NBSP}days old, {alive}", number::fixed(days, 0))
}

/// What the packet holds and what the pot is to get.
pub fn about(ask: &SplitAsk) -> String {
    format!(
        "A packet of {} is enough for {}{NBSP}L at this dose. The pot of {}{NBSP}L is to get {}",
        grams(ask.packet.grams),
        number::rough(ask.packet.litres),
        number::rough(ask.pot_litres),
        grams(ask.dose())
    )
}

/// How far the culture in the pot may be out.
pub fn error(split: &Split) -> String {
    let within = NINE_OF_TEN * split.error;
    if within < 0.005 {
        return "Nothing is lost or added".to_owned();
    }
    let range = if within < 0.95 {
        format!("In nine of ten pots it is within {}{NBSP}% of the dose", number::fixed(100.0 * within, 0))
    } else {
        "It can be anything from next to nothing to double the dose".to_owned()
    };
    match chance(split.under_half) {
        Some(chance) => format!("{range}; {chance} gets less than half"),
        None => range,
    }
}

/// "1 in 40"; nothing where it hardly ever is.
fn chance(share: f64) -> Option<String> {
    if share < NEXT_TO_NONE {
        return None;
    }
    Some(format!("1 in {}", number::fixed((1.0 / share).max(2.0), 0)))
}

/// What a dose that is out does to the time until the pot is sour.
pub fn time(half_h: Option<f64>, double_h: Option<f64>) -> Option<String> {
    let (half, double) = (half_h?, double_h?);
    let hours = |h: f64| number::hours((4.0 * h.abs()).round() / 4.0);
    Some(format!(
        "With half the dose this pot is sour {} later, with double {} sooner",
        hours(half),
        hours(double)
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::lines::Packet;
    use potset_make::packet::splits;

    #[test]
    fn a_packet_for_fifty_litres_is_mixed_and_the_sentences_say_how() {
        let ask = SplitAsk { packet: Packet { grams: 1.0, litres: 50.0 }, pot_litres: 1.0, error_g: 0.05 };
        let best = &splits(&ask).unwrap()[0];
        let said = steps(best, &ask).join(". ").replace(NBSP, " ");
        assert!(said.starts_with("Mix the whole packet (1.00 g) with 9.00 g of dry sugar"), "{said}");
        assert!(said.contains("into 1.00 L"), "{said}");
        let pinch = splits(&ask).unwrap().pop().unwrap();
        assert!(error(&pinch).contains("less than half"), "{}", error(&pinch));
    }

    #[test]
    fn what_the_dose_does_to_the_time_is_said_both_ways() {
        assert_eq!(time(Some(1.3), None), None);
        let said = time(Some(1.3), Some(-1.1)).unwrap().replace(NBSP, " ");
        assert!(said.contains("1 h 15 min later") && said.contains("1 h sooner"), "{said}");
    }
}

//! What is said before the settings: that the design does it already, that it was looked beyond what is usual.

use super::{chances, standing};
use potset_search::aim::{AsIs, Beyond, Found, Stage};

/// What a search is doing.
pub const fn doing(stage: Stage) -> &'static str {
    match stage {
        Stage::Start | Stage::Screen => "looking at what could change",
        Stage::Lift | Stage::Walk | Stage::Near => "turning levers",
        Stage::Sketch | Stage::Polish => "making the pot surer",
        Stage::Count => "counting possible pots",
        Stage::Trim => "removing what does not help",
        Stage::Why | Stage::Seed | Stage::Without => "finding what blocks",
        Stage::Done => "done",
    }
}

/// Name of the row of chances in the table of trade-offs.
pub const fn chance_name(found: &Found) -> &'static str {
    if found.blocked.is_some() { "pots where all other goals hold" } else { "pots where all goals hold" }
}

/// What is to be said before the settings, a sentence each.
pub fn lines(found: &Found) -> Vec<String> {
    let own = found.as_is.as_ref().and_then(as_is);
    let more = own.is_some() && found.complete;
    let texture = found.texture_let_go.filter(|_| !found.proposals.is_empty());
    let texture =
        texture.map(|word| format!("Nothing was found that keeps your design's texture ({})", word.word()));
    let beyond = match found.beyond {
        None | Some(Beyond::Never) => None,
        Some(Beyond::ALittle) => {
            Some("Nothing usual reaches your goals. A little more than usual was tried".to_owned())
        }
        Some(Beyond::Far) => Some("Nothing usual reaches your goals. Unusual amounts were tried".to_owned()),
    };
    own.into_iter().chain(more.then(|| more_often(found))).chain(texture).chain(beyond).collect()
}

/// By how much the settings work more often than the design that does it already: the counts decide how that is said.
fn more_often(found: &Found) -> String {
    let own = found.as_is.as_ref().and_then(|own| own.chance.as_ref());
    let best = found.proposals.iter().map(|p| &p.chance).max_by_key(|c| c.pots.of);
    let (Some(own), Some(best)) = (own, best) else {
        return "Nothing found works more often: there is nothing to change".to_owned();
    };
    let these = if found.proposals.len() == 1 { "This works" } else { "These work" };
    let how = if best.far_above(own) { "clearly" } else { "a little" };
    format!("{these} {how} more often: {} of {} pots against {}", best.pots.of, best.pots.among, own.pots.of)
}

/// Where the design does it: "Your design already does this in 6 in 10 pots (119 of 200)", and what is not so in all.
pub fn as_is(own: &AsIs) -> Option<String> {
    let not_all = own.standings.iter().enumerate().filter_map(|(d, s)| {
        let c = own.chance.as_ref()?.of_one(d)?;
        Some(format!("{} in {} of {}", standing::name(s), c.of, c.among))
    });
    let not_all = not_all.collect::<Vec<_>>().join("; ");
    let told = if not_all.is_empty() { not_all } else { format!(": {not_all}") };
    own.does().then(|| format!("Your design already does this {}{told}", often(own)))
}

/// "in 6 in 10 pots (119 of 200)".
pub(super) fn often(own: &AsIs) -> String {
    match &own.chance {
        Some(chance) if chance.spread() => format!("in {}", chances::pots(chance)),
        _ => "on its likely line".to_owned(),
    }
}

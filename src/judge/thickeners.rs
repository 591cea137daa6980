//! Advice on thickeners: what each needs, what it gets, and the plan that mends it.

use crate::advice::{Advice, note};
use crate::mends;
use crate::mends::Mend;
use potset_base::words::lower;
use potset_base::{Severity, number};
use potset_doc::pantry::{Action, Thickener};
use potset_forecast::scenario::{Ask, Run};

/// Thickeners that do not work as they go in, each with its mend.
pub fn advice(ask: &Ask<'_>, run: &Run, all: &mut Vec<Advice>) {
    for (i, (line, state)) in ask.design.thickeners.iter().zip(&run.facts.thickeners).enumerate() {
        let Some(entry) = ask.design.entry::<Thickener>(ask.pantry, &line.entry) else { continue };
        if line.g_per_l <= 0.0 {
            continue;
        }
        let field = format!("thickeners[{i}]");
        let name = &entry.name;
        match &entry.action {
            Action::ColdStarch { .. } if !line.mixed_first && entry.lumps.v > 0.0 => {
                let sentence = format!("Stirred in dry it clumps: {} % is lost in lumps", pct(entry.lumps.v));
                let mend = Mend::new("Add to the steps", potset_doc::Edit::ThickenerMixedFirst(i, true));
                let title = format!("Rub the {} into the sugar first", lower(name));
                all.push(Advice { note: note(Severity::Tip, &field, title, sentence), mend: Some(mend) });
            }
            Action::CookStarch { onset_c, full_c, .. } if state.state.share < 0.5 => {
                let plan = mends::cook(ask, i, full_c.v.clamp(95.0, 98.0));
                let sentence = format!(
                    "It swells from {} °C and needs the boil for about 2 min; {} % of it is cooked here, so it only sinks{}",
                    number::fixed(onset_c.v, 0),
                    pct(state.state.share),
                    gain(ask, run, &plan)
                );
                let title = format!("{name} needs heat that it never gets");
                all.push(Advice { note: note(Severity::Watch, &field, title, sentence), mend: Some(plan) });
            }
            Action::Gel { dissolve_c, set_c, .. } => gel(ask, run, i, name, (dissolve_c.v, set_c.v), all),
            _ => {}
        }
    }
}

fn gel(
    ask: &Ask<'_>,
    run: &Run,
    i: usize,
    name: &str,
    (dissolve_c, set_c): (f64, f64),
    all: &mut Vec<Advice>,
) {
    let Some(state) = run.facts.thickeners.get(i) else { return };
    let field = format!("thickeners[{i}]");
    if state.state.share < 0.5 {
        let plan = mends::cook(ask, i, (dissolve_c + 7.0).min(98.0));
        let sentence = format!(
            "It dissolves about {} °C; {} % of it does here{}",
            number::fixed(dissolve_c, 0),
            pct(state.state.share),
            gain(ask, run, &plan)
        );
        let title = format!("{name} never dissolves");
        all.push(Advice { note: note(Severity::Watch, &field, title, sentence), mend: Some(plan) });
    } else if state.state.broken > 0.25 {
        let sentence = format!(
            "It sets from about {} °C down (literature 32–45 °C for agar; some makers see it near 55 °C). At {} °C {} % \
             has set when the culture is stirred in, and what is broken does not heal",
            number::fixed(set_c, 0),
            number::fixed(run.facts.culture_in_c, 0),
            pct(state.state.broken)
        );
        let mend = (run.facts.culture_in_c < 43.0)
            .then(|| Mend::new("Put the culture in at 44 °C", potset_doc::Edit::CultureTemperature(44.0)));
        let title = format!("{name} sets before the culture goes in");
        all.push(Advice { note: note(Severity::Watch, &field, title, sentence), mend });
    }
}

/// What a mend would do to the pot, said in numbers.
fn gain(ask: &Ask<'_>, run: &Run, plan: &Mend) -> String {
    let now = run.forecast.value(&run.forecast.warm.viscosity50, run.mix.stop_h);
    ask.with(&plan.edit).map_or_else(String::new, |new| {
        let then = new.forecast.value(&new.forecast.warm.viscosity50, new.mix.stop_h);
        format!(". Cooked, the warm pot is {} times as thick", number::figures(then / now, 2))
    })
}

fn pct(share: f64) -> String {
    number::fixed(share * 100.0, 0)
}

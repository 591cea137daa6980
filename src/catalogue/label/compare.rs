//! The pot of a label beside the pot of the reference base, in one and the same recipe.

use potset_base::number;
use potset_base::words::TextureWord;
use potset_doc::design::{BaseLine, LabelFigures};
use potset_doc::pantry::{BaseKind, Pantry, find};
use potset_doc::{Design, Kitchen, Learnt, assets};
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;

/// Two pots that differ only in their base.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Name of the recipe and of the reference base.
    pub recipe: String,
    pub reference: String,
    /// Of the label's pot and of the reference pot.
    pub texture: [TextureWord; 2],
    /// Viscosity at 50 1/s, chilled, Pa·s.
    pub viscosity: [f64; 2],
    /// Hours to pH 4.6; empty where it is not reached.
    pub to_line_h: [Option<f64>; 2],
}

impl Difference {
    /// The difference in a sentence.
    pub fn sentence(&self) -> String {
        let [own, other] = self.texture;
        let texture = if own == other {
            format!(
                "it {} as well ({} against {} Pa·s)",
                own.word(),
                number::figures(self.viscosity[0], 2),
                number::figures(self.viscosity[1], 2)
            )
        } else {
            format!("it {} where the reference {}", own.word(), other.word())
        };
        let hours = |h: Option<f64>| {
            h.map_or_else(|| "not within the hold".to_owned(), |h| format!("after {}", number::hours(h)))
        };
        let [own, other] = self.to_line_h.map(hours);
        let line = if own == other {
            format!("pH 4.6 {own}, as there")
        } else {
            format!("pH 4.6 {own}, there {other}")
        };
        format!("In “{}”, instead of {}: {texture}; {line}", self.recipe, self.reference)
    }
}

/// Runs both pots.
///
/// # Errors
/// A sentence that says why there is no forecast.
pub fn compare(
    kind: BaseKind,
    (key, figures): (&str, &LabelFigures),
    pantry: &Pantry,
    (kitchen, learnt): (&Kitchen, &Learnt),
) -> Result<Difference, String> {
    // The reference of a kind is its first entry: tinned coconut cream, whole milk, plain soy drink.
    let reference =
        pantry.bases.iter().find(|b| b.kind == kind).ok_or("The pantry has no base of this kind")?;
    let recipe = recipe(kind)?;
    let run = |entry: &str, label: LabelFigures| {
        let mut design = recipe.clone();
        design.bases = vec![BaseLine { label, ..BaseLine::new(entry.to_owned(), recipe.litres()) }];
        design.snapshot.bases.clear();
        design.refresh_snapshot(pantry);
        let found = answer(&Scenario { design: &design, pantry, kitchen, learnt });
        if let Some(error) = found.errors.first() {
            return Err(error.line());
        }
        match (found.verdict.texture, found.verdict.tang) {
            (Some(texture), Some(tang)) => Ok((texture, tang)),
            _ => Err("There is no forecast of this pot".to_owned()),
        }
    };
    let (own, own_tang) = run(key, figures.clone())?;
    let (other, other_tang) = run(&reference.key, LabelFigures::default())?;
    Ok(Difference {
        recipe: recipe.name.clone(),
        reference: reference.name.clone(),
        texture: [own.word, other.word],
        viscosity: [own.chilled, other.chilled],
        to_line_h: [own_tang.line_h, other_tang.line_h],
    })
}

/// The first demo design of one base of that kind; else the first of all.
fn recipe(kind: BaseKind) -> Result<Design, String> {
    let mut first = None;
    for (file, _) in assets::DEMOS {
        let design = assets::demo(file).map_err(|note| note.line())?;
        let fits = match design.bases.as_slice() {
            [one] => find(&design.snapshot.bases, &one.entry).is_some_and(|b| b.kind == kind),
            _ => false,
        };
        if fits {
            return Ok(design);
        }
        first = first.or(Some(design));
    }
    first.ok_or_else(|| "There is no recipe to compare with".to_owned())
}

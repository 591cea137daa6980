//! What is in a pot and what is done to it, as far as that decides which laws act.

use potset_base::Sugar;
use potset_base::words::Style;
use potset_doc::Design;
use potset_doc::in_pot::InPot;
use potset_doc::pantry::{Action, BaseKind, Form, Pantry, ProteinKind};
use potset_doc::steps::{Step, Way};

/// All that is in one pot.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Acting(Vec<InPot>);

impl Acting {
    /// Of a design whose snapshot holds all that it uses.
    pub fn of(design: &Design) -> Self {
        let pantry = &design.snapshot;
        let mut all = Self(vec![InPot::Disturbed(design.disturbed)]);
        all.bases(pantry);
        all.thickeners(pantry);
        all.cultures(design);
        all.additives(pantry);
        all.sugars(pantry);
        if design.style == Style::Strained || design.steps.iter().any(|s| matches!(s, Step::Strain { .. })) {
            all.0.push(InPot::Strained);
        }
        all.0.extend(design.steps.iter().filter_map(way).map(InPot::Way));
        all
    }

    /// Whether it is in the pot.
    pub fn has(&self, what: InPot) -> bool {
        self.0.contains(&what)
    }

    /// Whether one of them is in the pot; of none, whatever the pot holds.
    pub fn has_any(&self, all: &[InPot]) -> bool {
        all.is_empty() || all.iter().any(|what| self.has(*what))
    }

    fn bases(&mut self, pantry: &Pantry) {
        for base in &pantry.bases {
            self.0.push(InPot::Base(base.kind));
            self.0.extend_from_slice(match base.kind {
                BaseKind::Dairy => &[InPot::MilkProtein, InPot::Protein, InPot::Fat],
                BaseKind::Soy => &[InPot::SoyProtein, InPot::Protein, InPot::PlantFat, InPot::Fat],
                BaseKind::Pea => &[InPot::PeaProtein, InPot::Protein, InPot::PlantFat, InPot::Fat],
                BaseKind::Coconut | BaseKind::Oat | BaseKind::Nut | BaseKind::Rice => {
                    &[InPot::PlantFat, InPot::Fat]
                }
                BaseKind::Water => &[],
            });
        }
    }

    fn thickeners(&mut self, pantry: &Pantry) {
        for thickener in &pantry.thickeners {
            self.0.extend_from_slice(match &thickener.action {
                Action::ColdStarch { .. } => &[InPot::Starch, InPot::ColdStarch, InPot::Thickener],
                Action::CookStarch { .. } => &[InPot::Starch, InPot::CookedStarch, InPot::Thickener],
                Action::Gel { .. } => &[InPot::GellingAgent, InPot::Thickener],
                Action::Gum { .. } => &[InPot::Gum, InPot::Thickener],
                Action::Protein { kind: ProteinKind::Milk, .. } => &[InPot::MilkProtein, InPot::Protein],
                Action::Protein { kind: ProteinKind::Soy, .. } => &[InPot::SoyProtein, InPot::Protein],
                Action::Protein { kind: ProteinKind::Pea, .. } => &[InPot::PeaProtein, InPot::Protein],
                Action::Filler { .. } => &[],
            });
        }
    }

    fn cultures(&mut self, design: &Design) {
        for culture in &design.snapshot.cultures {
            self.0.extend([InPot::Culture, InPot::ColdAcid(culture.cold_acid)]);
            self.0.extend((culture.form == Form::BackSlop).then_some(InPot::BackSlop));
            self.0.extend(culture.ropy.then_some(InPot::Ropy));
        }
        self.0.extend(design.cultures.iter().any(|line| line.age_days > 0.0).then_some(InPot::Aged));
    }

    fn additives(&mut self, pantry: &Pantry) {
        for additive in &pantry.additives {
            self.0.extend(additive.lactase_per_g.is_some().then_some(InPot::Lactase));
            for share in &additive.inhibits {
                self.0.extend([InPot::Inhibitor(share.inhibitor), InPot::AnyInhibitor]);
            }
        }
    }

    /// Sugars of bases and sugars, and what the culture and lactase make of lactose.
    fn sugars(&mut self, pantry: &Pantry) {
        let own = pantry.bases.iter().flat_map(|b| &b.composition.sugars);
        let own = own.chain(pantry.sugars.iter().flat_map(|s| &s.sugars));
        self.0.extend(own.map(|share| InPot::Sugar(share.sugar)));
        if self.has(InPot::Sugar(Sugar::Lactose)) {
            self.0.push(InPot::Sugar(Sugar::Galactose));
            if self.has(InPot::Lactase) {
                self.0.push(InPot::Sugar(Sugar::Glucose));
            }
        }
    }
}

/// How a step brings heat in or out.
const fn way(step: &Step) -> Option<Way> {
    match step {
        Step::Warm { way, .. }
        | Step::HeatTreat { way, .. }
        | Step::Stand { way, .. }
        | Step::Cool { way, .. }
        | Step::Chill { way, .. } => Some(*way),
        Step::CookPart { .. } => Some(Way::Pan),
        _ => None,
    }
}

//! Which parameters a design rests on: those of laws that have something to act on in this pot.

use std::collections::BTreeSet;

use potset_base::words::Style;
use potset_base::{Inhibitor, Sugar};
use potset_doc::Design;
use potset_doc::design::Disturbed;
use potset_doc::pantry::{Action, BaseKind, ColdAcid, Form, Pantry, ProteinKind};
use potset_doc::steps::{Step, Way};

/// What is in a pot, as far as it decides which laws act.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Use {
    there: BTreeSet<&'static str>,
    ways: Vec<Way>,
}

impl Use {
    /// Of a design whose snapshot holds all that it uses.
    #[must_use]
    pub fn of(design: &Design) -> Self {
        let pantry = &design.snapshot;
        let mut there = BTreeSet::new();
        bases(pantry, &mut there);
        thickeners(pantry, &mut there);
        cultures(design, &mut there);
        additives(pantry, &mut there);
        let sugars = pantry.bases.iter().flat_map(|b| &b.composition.sugars);
        let sugars = sugars.chain(pantry.sugars.iter().flat_map(|s| &s.sugars));
        there.extend(sugars.map(|share| share.sugar.name()));
        if there.contains(Sugar::Lactose.name()) {
            there.insert(Sugar::Galactose.name());
            if there.contains("lactase") {
                there.insert(Sugar::Glucose.name());
            }
        }
        if design.style == Style::Strained || design.steps.iter().any(|s| matches!(s, Step::Strain { .. })) {
            there.insert("strained");
        }
        there.insert(match design.disturbed {
            Disturbed::SpoonOnly => "spooned",
            Disturbed::StirredByHand => "stirred",
            Disturbed::Worked => "worked",
            Disturbed::Blended => "blended",
        });
        Self { there, ways: ways(&design.steps) }
    }

    /// Whether the pot has something: "starch", "milk protein", "culture"; of nothing it always does.
    #[must_use]
    pub fn has(&self, what: &str) -> bool {
        let any = |all: &[&str]| all.iter().any(|one| self.there.contains(one));
        match what {
            "" => true,
            "protein" => any(&["milk protein", "soy protein", "pea protein"]),
            "fat" => any(&["dairy", "plant fat"]),
            "thickener" => any(&["starch", "gelling agent", "gum"]),
            "inhibitor" => any(&Inhibitor::ALL.map(Inhibitor::words)),
            _ => self.there.contains(what),
        }
    }

    /// Whether a parameter's law has something to act on in the pot.
    #[must_use]
    pub fn parameter(&self, key: &str) -> bool {
        let (group, name) = key.split_once('.').unwrap_or((key, ""));
        let way = |way| self.ways.contains(&way);
        let starts = |what: &str| name.starts_with(what);
        match group {
            "acids" if starts("benzoic") => self.has("benzoate"),
            "acids" if starts("sorbic") => self.has("sorbate"),
            "acids" => true,
            "growth" if starts("cold_mild") => self.has("cold mild"),
            "growth" if starts("cold_medium") => self.has("cold medium"),
            "growth" if starts("cold_sharp") => self.has("cold sharp"),
            "growth" => self.has("culture"),
            "lactase" => self.has("lactase"),
            "ageing" if starts("slop") || starts("wet") => self.has("slop"),
            "ageing" | "dry_loss" => self.has("aged"),
            "paces" => self.has(name),
            "strain" => self.has("strained"),
            "whey" => self.has("milk protein"),
            "gel" => self.gel(name),
            "starch" if starts("cook") || starts("overcooked") => self.has("cooked starch"),
            "starch" if starts("cold_rate") => self.has("cold starch"),
            "starch" => self.has("starch"),
            "fat" if starts("milk") || starts("dairy") => self.has("dairy"),
            "fat"
                if starts("coconut")
                    || starts("network")
                    || starts("plant")
                    || starts("index")
                    || starts("sour") =>
            {
                self.has("plant fat")
            }
            "separation" => self.has("fat"),
            "solid_fat" => self.has(if starts("milk") { "dairy" } else { "plant fat" }),
            "flow" if starts("ropy") => self.has("ropy"),
            "flow" => self.flow(name),
            "wheying" if starts("ropy") => self.has("ropy"),
            "wheying" if starts("starch") => self.has("starch"),
            "words" if starts("sweet_") => self.has(name.trim_start_matches("sweet_")),
            "ways" if starts("pan") => way(Way::Pan),
            "ways" if starts("bath") => way(Way::Bath),
            "ways" if starts("tap") => way(Way::TapWater),
            "ways" if starts("cold_water") => way(Way::ColdWater),
            "ways" if starts("ice") => way(Way::IceBath),
            "coconut" => self.has("coconut"),
            _ => true,
        }
    }

    fn gel(&self, name: &str) -> bool {
        let protein = self.has("protein");
        match name {
            "calcium_enough" => self.has("gelling agent"),
            _ if name.starts_with("soy_") => self.has("soy protein"),
            _ if name.starts_with("pea_") => self.has("pea protein") || self.has("nut"),
            _ if name.starts_with("nut_") => self.has("nut"),
            "exclusion" => self.has("starch"),
            "end_ph" | "ph_exponent" => protein,
            _ if name.starts_with("weaken") => protein,
            _ => self.has("milk protein"),
        }
    }

    fn flow(&self, name: &str) -> bool {
        let handled = ["spooned", "stirred", "worked", "blended"];
        match name.trim_start_matches("fat_") {
            bare if handled.contains(&bare) => self.has(bare),
            "sigma_dairy" | "sigma_emulsion" => self.has("dairy"),
            "plant_flow" => self.has("soy protein") || self.has("pea protein") || self.has("nut"),
            "sigma_plant" => self.has("plant fat") || self.has("starch"),
            _ => true,
        }
    }
}

fn bases(pantry: &Pantry, there: &mut BTreeSet<&'static str>) {
    for base in &pantry.bases {
        there.extend(match base.kind {
            BaseKind::Dairy => &["dairy", "milk protein"][..],
            BaseKind::Coconut => &["coconut", "plant fat"],
            BaseKind::Soy => &["soy", "soy protein", "plant fat"],
            BaseKind::Pea => &["pea", "pea protein", "plant fat"],
            BaseKind::Oat => &["oat", "plant fat"],
            BaseKind::Nut => &["nut", "plant fat"],
            BaseKind::Rice => &["rice", "plant fat"],
            BaseKind::Water => &[],
        });
    }
}

fn thickeners(pantry: &Pantry, there: &mut BTreeSet<&'static str>) {
    for thickener in &pantry.thickeners {
        there.extend(match &thickener.action {
            Action::ColdStarch { .. } => &["starch", "cold starch"][..],
            Action::CookStarch { .. } => &["starch", "cooked starch"],
            Action::Gel { .. } => &["gelling agent"],
            Action::Gum { .. } => &["gum"],
            Action::Protein { kind: ProteinKind::Milk, .. } => &["milk protein"],
            Action::Protein { kind: ProteinKind::Soy, .. } => &["soy protein"],
            Action::Protein { kind: ProteinKind::Pea, .. } => &["pea protein"],
            Action::Filler { .. } => &["filler"],
        });
    }
}

fn cultures(design: &Design, there: &mut BTreeSet<&'static str>) {
    for culture in &design.snapshot.cultures {
        there.insert("culture");
        there.insert(match culture.cold_acid {
            ColdAcid::Mild => "cold mild",
            ColdAcid::Medium => "cold medium",
            ColdAcid::Sharp => "cold sharp",
        });
        if culture.form == Form::BackSlop {
            there.insert("slop");
        }
        if culture.ropy {
            there.insert("ropy");
        }
    }
    if design.cultures.iter().any(|line| line.age_days > 0.0) {
        there.insert("aged");
    }
}

fn additives(pantry: &Pantry, there: &mut BTreeSet<&'static str>) {
    for additive in &pantry.additives {
        if additive.lactase_per_g.is_some() {
            there.insert("lactase");
        }
        let kinds = additive.inhibits.iter().map(|share| share.inhibitor);
        there.extend(kinds.map(Inhibitor::words));
    }
}

fn ways(steps: &[Step]) -> Vec<Way> {
    let way = |step: &Step| match step {
        Step::Warm { way, .. }
        | Step::HeatTreat { way, .. }
        | Step::Stand { way, .. }
        | Step::Cool { way, .. }
        | Step::Chill { way, .. } => Some(*way),
        Step::CookPart { .. } => Some(Way::Pan),
        _ => None,
    };
    steps.iter().filter_map(way).collect()
}

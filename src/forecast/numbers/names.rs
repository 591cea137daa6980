//! Keys of parameters and paths of pantry figures in plain words.

use std::collections::BTreeMap;

use super::words::{FIELDS, GROUPS, PARAMETERS, SHELVES};
use potset_doc::Pantry;

/// Group and name of a parameter: "gel.heated_pa" is ("protein gel", "stiffness that full heating adds").
pub fn parameter(key: &str) -> (String, String) {
    let (group, name) = key.split_once('.').unwrap_or((key, ""));
    let words = look(PARAMETERS, key).map_or_else(|| plain(name), str::to_owned);
    (look(GROUPS, group).map_or_else(|| plain(group), str::to_owned), words)
}

/// Names of pantry entries by shelf and key.
pub struct Entries(BTreeMap<String, String>);

impl Entries {
    /// The names of all entries; those of the later pantry stand.
    pub fn of(pantries: &[&Pantry]) -> Self {
        let mut names = BTreeMap::new();
        macro_rules! put {
            ($pantry:expr, $($shelf:ident),+) => {
                $(for entry in &$pantry.$shelf {
                    names.insert(format!("{}.{}", stringify!($shelf), entry.key), entry.name.clone());
                })+
            };
        }
        for pantry in pantries {
            put!(
                pantry,
                buffer_shapes,
                bases,
                sugars,
                thickeners,
                additives,
                organisms,
                cultures,
                vessels,
                warmers,
                raws
            );
        }
        Self(names)
    }

    /// Group and name of a figure: "thickeners.agar.action.stiffness_pa" is ("Agar", "stiffness at the reference dose").
    pub fn figure(&self, path: &str) -> (String, String) {
        let mut steps = path.split('.');
        let (shelf, entry) = (steps.next().unwrap_or_default(), steps.next().unwrap_or_default());
        let name = self.0.get(&format!("{shelf}.{entry}")).cloned().unwrap_or_else(|| plain(entry));
        let group = look(SHELVES, shelf).map_or_else(|| plain(shelf), str::to_owned);
        let rest: Vec<&str> = steps.collect();
        (format!("{group} {name}"), self.field(&rest))
    }

    /// The rest of a path in words: parents first, containers left out, organisms by their name.
    fn field(&self, path: &[&str]) -> String {
        let mut said: Vec<String> = Vec::new();
        let mut parent = "";
        for (i, step) in path.iter().enumerate() {
            let last = i + 1 == path.len();
            let word = match (parent, *step) {
                ("helpers" | "doses" | "synergies" | "holds", label) => {
                    let of = look(FIELDS, parent).unwrap_or(parent);
                    Some(format!("{of} {}", self.label(label)))
                }
                // A sugar or an inhibitor, even where an entry has the same key.
                ("eats" | "sensitive", label) => {
                    Some(format!("{} {}", look(FIELDS, parent).unwrap_or(parent), label.replace('_', " ")))
                }
                ("nutrients", leaf) => Some(format!("nutrition, {}", plain(leaf))),
                ("passes", leaf) => Some(format!("{} that passes the cloth", plain(leaf))),
                (_, container) if !last && look(FIELDS, container).is_some() => None,
                (_, step) if last && step == "g_per_100g" => None,
                (_, leaf) if last => Some(look(FIELDS, leaf).map_or_else(|| plain(leaf), str::to_owned)),
                (_, label) => Some(label.replace('_', " ")),
            };
            said.extend(word);
            parent = step;
        }
        said.retain(|word| !word.is_empty());
        said.join(", ")
    }

    /// What a part is called that is an entry of its own.
    fn label(&self, key: &str) -> String {
        let shelves = ["organisms", "thickeners", "additives"];
        let named = shelves.iter().find_map(|shelf| self.0.get(&format!("{shelf}.{key}")));
        named.cloned().unwrap_or_else(|| key.replace('_', " "))
    }
}

fn look<'a>(table: &[(&str, &'a str)], key: &str) -> Option<&'a str> {
    table.iter().find(|(k, _)| *k == key).map(|(_, words)| *words)
}

/// A key that no table knows: without its unit, and without underscores.
fn plain(key: &str) -> String {
    let units = ["_g_per_l", "_g_l", "_pa", "_c", "_h", "_min", "_s", "_um"];
    let bare = units.iter().find_map(|unit| key.strip_suffix(unit)).unwrap_or(key);
    bare.replace('_', " ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use potset_doc::assets;

    #[test]
    fn paths_are_turned_into_plain_words() {
        let pantry = assets::pantry().unwrap();
        let entries = Entries::of(&[&pantry]);
        let of = |path: &str| {
            let (group, name) = entries.figure(path);
            format!("{group}: {name}")
        };
        assert_eq!(
            of("thickeners.agar.action.stiffness_pa"),
            "thickener Agar: stiffness at the reference dose"
        );
        assert_eq!(
            of("bases.whole_cows_milk.composition.sugars.lactose.g_per_100g"),
            "base Whole cow's milk: lactose"
        );
        assert_eq!(
            of("organisms.s_thermophilus.eats.sucrose.weight"),
            "organism S. thermophilus: how readily it eats sucrose"
        );
        assert_eq!(
            of("buffer_shapes.milk.sites.histidine.pk"),
            "buffer Milk, with colloidal calcium phosphate: histidine, pK"
        );
        assert_eq!(
            of("organisms.s_thermophilus.sensitive.salt.half"),
            "organism S. thermophilus: sensitive to salt, amount at half the speed"
        );
        // What nobody has named yet is still readable.
        assert_eq!(of("bases.whole_cows_milk.new_thing_c"), "base Whole cow's milk: new thing");
    }

    #[test]
    fn every_parameter_that_is_named_exists() {
        let params = crate::params::shipped().unwrap();
        let mut keys: Vec<String> = params.list().into_iter().map(|(key, _)| key).collect();
        keys.extend(
            ["solid_fat.coconut", "solid_fat.milk", "dry_loss.curve", "cautions.row"].map(str::to_owned),
        );
        for (key, words) in PARAMETERS {
            assert!(keys.iter().any(|k| k == key), "{key} ({words}) is no parameter");
        }
        for (place, (key, _)) in PARAMETERS.iter().enumerate() {
            assert!(PARAMETERS[..place].iter().all(|(other, _)| other != key), "{key} stands twice");
        }
    }
}

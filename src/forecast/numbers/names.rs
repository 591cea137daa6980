//! Keys of parameters and paths of pantry figures in plain words.

use std::collections::BTreeMap;

use potset_base::lexicon::Table;
use potset_doc::Pantry;
use potset_doc::number_words::{FieldWords, Inside, words};

/// Group and name of a parameter: "gel.heated_pa" is ("protein gel", "stiffness that full heating adds").
pub fn parameter(key: &str) -> (String, String) {
    let (group, name) = key.split_once('.').unwrap_or((key, ""));
    let said = words().parameters.get(key).map_or_else(|| plain(name), |row| row.words.clone());
    (look(&words().groups, group), said)
}

/// Names of pantry entries by shelf and key.
pub struct Entries(BTreeMap<String, String>);

impl Entries {
    /// The names of all entries; those of the later pantry stand.
    pub fn of(pantries: &[&Pantry]) -> Self {
        let mut names = BTreeMap::new();
        let mut put = |list: &str, key: &str, name: &str| {
            names.insert(format!("{list}.{key}"), name.to_owned());
        };
        for pantry in pantries {
            pantry.all().for_each(|(kind, entry)| put(kind.list(), entry.key(), entry.name()));
            pantry.buffer_shapes.iter().for_each(|shape| put("buffer_shapes", &shape.key, &shape.name));
            pantry.organisms.iter().for_each(|organism| put("organisms", &organism.key, &organism.name));
        }
        Self(names)
    }

    /// Group and name of a figure: "thickeners.agar.action.stiffness_pa" is ("Agar", "stiffness at the reference dose").
    pub fn figure(&self, path: &str) -> (String, String) {
        let mut steps = path.split('.');
        let (shelf, entry) = (steps.next().unwrap_or_default(), steps.next().unwrap_or_default());
        let name = self.0.get(&format!("{shelf}.{entry}")).cloned().unwrap_or_else(|| plain(entry));
        let group = look(&words().shelves, shelf);
        let rest: Vec<&str> = steps.collect();
        (format!("{group} {name}"), self.field(&rest))
    }

    /// The rest of a path in words: parents first, containers left out, organisms by their name.
    fn field(&self, path: &[&str]) -> String {
        let mut said: Vec<String> = Vec::new();
        let mut parent = None;
        for (i, step) in path.iter().enumerate() {
            let last = i + 1 == path.len();
            let own = words().fields.get(step);
            let around =
                parent.map_or((Inside::Fields, ""), |field: &FieldWords| (field.inside, &field.words));
            said.push(match around {
                (Inside::Entry, of) => format!("{of} {}", self.label(step)),
                (Inside::Key, of) => format!("{of} {}", step.replace('_', " ")),
                (Inside::Before, of) => format!("{of} {}", plain(step)),
                (Inside::After, of) => format!("{} {of}", plain(step)),
                (Inside::Fields, _) => match own {
                    Some(_) if !last => String::new(),
                    Some(field) => field.words.clone(),
                    None if last => plain(step),
                    None => step.replace('_', " "),
                },
            });
            parent = own;
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

/// The words of a key.
fn look(table: &Table<String>, key: &str) -> String {
    table.get(key).cloned().unwrap_or_else(|| plain(key))
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
}

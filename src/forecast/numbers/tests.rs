//! The list is whole, says what the design uses, and adds up.

use super::*;
use potset_doc::assets;

fn coconut() -> (Design, Pantry, Vec<Number>) {
    let (design, pantry) = (assets::demo("coconut-pot.ron").unwrap(), assets::pantry().unwrap());
    let list = numbers(&design, &pantry, &Kitchen::default(), &Learnt::default()).all;
    (design, pantry, list)
}

#[test]
fn every_parameter_curve_caution_and_figure_is_listed() {
    let (_, pantry, list) = coconut();
    let shared = list.iter().filter(|n| !n.own).count();
    let sources = params::TEXT.matches("from: (kind:").count() + params::TEXT.matches("from: (\n").count();
    assert_eq!(shared, sources + assets::PANTRY.matches("from: (kind:").count());
    assert_eq!(shares(&list).iter().sum::<usize>(), list.len());
    let keys: BTreeSet<&str> = list.iter().filter(|n| !n.own).map(|n| n.key.as_str()).collect();
    assert_eq!(keys.len(), shared, "a key stands twice");
    for number in &list {
        assert!(
            !number.name.is_empty() && !number.group.is_empty() && !number.value.is_empty(),
            "{number:?}"
        );
        assert!(!number.source.trim().is_empty(), "{}", number.key);
    }
    assert_eq!(pantry.figures().len() + params::shipped().unwrap().list().len() + 7, shared);
}

#[test]
fn a_coconut_pot_rests_on_coconut_and_not_on_soy() {
    let (_, _, list) = coconut();
    let used = |key: &str| list.iter().find(|n| n.key == key).unwrap_or_else(|| panic!("{key}")).used;
    assert!(used("coconut.reference_fat") && used("fat.network_home") && used("solid_fat.coconut"));
    assert!(used("bases.coconut_milk_tinned.mean_buffer") && used("acids.lactic_pka"));
    assert!(!used("gel.soy_pa") && !used("gel.heated_pa") && !used("whey.low_energy"));
    assert!(!used("bases.whole_cows_milk.mean_buffer") && !used("lactase.energy"));
}

#[test]
fn what_the_design_carries_of_its_own_is_told_apart() {
    let (mut design, pantry, _) = coconut();
    design.snapshot.bases[0].mean_buffer.value += 1.0;
    let list = numbers(&design, &pantry, &Kitchen::default(), &Learnt::default()).all;
    let key = format!("bases.{}.mean_buffer", design.bases[0].entry);
    let both: Vec<(bool, bool)> = list.iter().filter(|n| n.key == key).map(|n| (n.used, n.own)).collect();
    assert_eq!(both, [(false, false), (true, true)]);
}

#[test]
fn the_table_has_a_line_a_number_and_the_same_columns_in_each() {
    let (_, _, list) = coconut();
    let text = table(&list);
    assert_eq!(text.lines().count(), list.len() + 1);
    assert!(text.lines().all(|line| line.matches('\t').count() == 8));
}

#[test]
fn exponents_are_read_as_powers_of_ten() {
    assert_eq!(powers("1.4e9 to 6e9"), "1.4·10⁹ to 6·10⁹");
    assert_eq!(powers("5e-05"), "5·10⁻⁰⁵");
    assert_eq!(powers("0.92 at 0 °C"), "0.92 at 0 °C");
}

#[test]
fn every_parameter_has_words_and_all_words_a_parameter() {
    let mut keys: Vec<String> = params::shipped().unwrap().list().into_iter().map(|(key, _)| key).collect();
    keys.extend(["solid_fat.coconut", "solid_fat.milk", "dry_loss.curve", "cautions.row"].map(str::to_owned));
    let named: Vec<&str> = words().parameters.iter().map(|(key, _)| key).collect();
    for key in &keys {
        assert!(named.contains(&key.as_str()), "{key} has no words");
    }
    for key in named {
        assert!(keys.iter().any(|k| k == key), "{key} is no parameter");
    }
}

//! The command line: output, exit codes, and plain sentences.

mod faults;
mod out;
mod strange;
mod streams;
mod table;

use std::collections::BTreeMap;
use std::path::Path;
use std::process::{Command, Output};

use potset_science::simulate::{TOLERANCE, simulate_at};

use crate::support::{demo, forecast, mix};

/// The program without a display, at the home of someone who has kept nothing.
fn command() -> Command {
    command_at(&Path::new(env!("CARGO_TARGET_TMPDIR")).join("nobody"))
}

/// The same at another home.
pub fn command_at(home: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_potset"));
    command.env("HOME", home);
    for name in ["XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"] {
        command.env_remove(name);
    }
    for name in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"] {
        command.env_remove(name);
    }
    command
}

/// Runs the program. The name of a design that was a demo once stands for its file of the tests.
pub fn potset(arguments: &[&str]) -> Output {
    let kept = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/designs");
    let meant = |name: &&str| match *name {
        "coconut-pot.ron" | "whole-milk-pot.ron" => kept.join(name).display().to_string(),
        other => other.to_owned(),
    };
    command().args(arguments.iter().map(meant)).output().unwrap()
}

/// Runs the program at the home of somebody.
pub fn potset_at(home: &Path, arguments: &[&str]) -> Output {
    command_at(home).args(arguments).output().unwrap()
}

pub fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

/// Head of the forecast table: fixed, with the organisms of the pot in the middle.
const HEAD: &str = "time_h,temperature_c,ph,acid_made_percent,titratable_acidity_percent,undissociated_lactic_mmol_kg,\
                    lactose_g_kg,sucrose_g_kg,glucose_g_kg,fructose_g_kg,galactose_g_kg,maltose_g_kg,raffinose_g_kg,\
                    stachyose_g_kg,lactic_g_kg,acetic_g_kg,count_log10_s_thermophilus,count_log10_l_bulgaricus,\
                    count_log10_l_acidophilus,viscosity50_warm_pa_s,viscosity50_chilled_pa_s,stiffness_warm_pa,\
                    stiffness_chilled_pa,whey_standing_percent,whey_cut_percent,thin_layer_warm_percent,\
                    thin_layer_chilled_percent,whey_centrifuged_percent,\
                    viscosity10_warm_pa_s,flow_k_warm_pa_s_n,flow_n_warm,firmness_warm_n,viscosity10_chilled_pa_s,\
                    flow_k_chilled_pa_s_n,flow_n_chilled,firmness_chilled_n,titratable_acidity_dornic,\
                    titratable_acidity_soxhlet_henkel,titratable_acidity_thorner,titratable_acidity_at_ph_4_6_percent";

/// A table by its columns.
fn columns(table: &str) -> BTreeMap<String, Vec<f64>> {
    let mut table = csv::Reader::from_reader(table.as_bytes());
    let names: Vec<String> = table.headers().unwrap().iter().map(str::to_owned).collect();
    let mut out: BTreeMap<String, Vec<f64>> = names.iter().map(|name| (name.clone(), Vec::new())).collect();
    for line in table.deserialize::<Vec<f64>>() {
        for (name, value) in names.iter().zip(line.unwrap()) {
            out.get_mut(name).unwrap().push(value);
        }
    }
    out
}

#[test]
fn steps_finer_than_the_grid_are_computed_and_not_drawn_between_its_points() {
    let out = potset(&["forecast", "coconut-pot.ron", "--every", "1", "--hours", "14"]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let table = columns(&text(&out.stdout));
    let times: Vec<f64> = (0..=14 * 60).map(|minute| f64::from(minute) / 60.0).collect();
    assert_eq!(table["time_h"].len(), times.len());
    let mix = mix(&demo("coconut-pot.ron"));
    let direct = simulate_at(&mix, &times, TOLERANCE).unwrap();
    let grid = forecast(&demo("coconut-pot.ron"));
    let (mut off, mut between) = (0.0_f64, 0.0_f64);
    for (i, t) in times.iter().enumerate() {
        off = off.max((table["ph"][i] - direct.ph[i]).abs());
        off = off.max((table["acid_made_percent"][i] - direct.acid_made[i]).abs());
        between = between.max((grid.value(&grid.ph, *t) - direct.ph[i]).abs());
    }
    assert!(off < 1e-5, "off by {off}");
    // The straight lines of the usual grid would be seen at once.
    assert!(between > 1e-4, "the grid itself is within {between}: this test can tell nothing");
}

#[test]
fn the_last_columns_follow_from_the_others() {
    for file in ["coconut-pot.ron", "whole-milk-pot.ron"] {
        let table = columns(&text(&potset(&["forecast", file, "--every", "120"]).stdout));
        let at = |name: &str, i: usize| table[name][i];
        let near = |a: f64, b: f64| (a - b).abs() <= 2e-5 * a.abs().max(b.abs());
        for i in 0..table["time_h"].len() {
            let acidity = at("titratable_acidity_percent", i);
            // 1 °D, °SH and °Th are 0.01, 0.0225 and 0.009 % lactic acid.
            assert!(near(at("titratable_acidity_dornic", i), acidity / 0.01));
            assert!(near(at("titratable_acidity_soxhlet_henkel", i), acidity / 0.0225));
            assert!(near(at("titratable_acidity_thorner", i), acidity / 0.009));
            for of in ["warm", "chilled"] {
                let k = at(&format!("flow_k_{of}_pa_s_n"), i);
                let n = at(&format!("flow_n_{of}"), i);
                for shear in [10.0_f64, 50.0] {
                    let viscosity = at(&format!("viscosity{shear}_{of}_pa_s"), i);
                    assert!(near(k * shear.powf(n - 1.0), viscosity), "{file} {of} {shear} at {i}");
                }
                assert!(n > 0.0 && n < 1.0 + 1e-5, "{file}: n is {n}");
                // 8 G' times 12.5 mm times 2 mm.
                let stiffness = at(&format!("stiffness_{of}_pa"), i);
                assert!(near(at(&format!("firmness_{of}_n"), i), 8.0 * stiffness * 0.0125 * 0.002));
            }
            assert!(at("whey_centrifuged_percent", i) >= at("whey_cut_percent", i));
        }
        // The acidity at pH 4.6 is the one of the line on which the pot passes it.
        let fine = columns(&text(&potset(&["forecast", file, "--every", "1"]).stdout));
        let i = fine["ph"].iter().position(|ph| *ph <= 4.6).unwrap();
        let (there, told) =
            (fine["titratable_acidity_percent"][i], fine["titratable_acidity_at_ph_4_6_percent"][i]);
        assert!((there - told).abs() < 0.01, "{file}: {there} against {told}");
    }
}

#[test]
fn forecast_is_a_table_with_the_agreed_head() {
    let out = potset(&["forecast", "coconut-pot.ron", "--every", "60"]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let table = text(&out.stdout);
    let lines: Vec<&str> = table.lines().collect();
    assert_eq!(lines[0], HEAD);
    assert_eq!(lines.len(), 26, "0 to 24 h every hour");
    let columns = HEAD.split(',').count();
    for line in &lines[1..] {
        let numbers: Vec<f64> = line.split(',').map(|n| n.parse().unwrap()).collect();
        assert_eq!(numbers.len(), columns);
        assert!(numbers.iter().all(|n| n.is_finite()));
    }
    assert!(lines[25].starts_with("24,"));
    let again = potset(&["forecast", "coconut-pot.ron", "--every", "60"]);
    assert_eq!(out.stdout, again.stdout, "the same bytes");
}

#[test]
fn forecast_goes_as_far_as_asked_and_into_a_file() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("curves.csv");
    let out = potset(&[
        "forecast",
        "coconut-pot.ron",
        "--every",
        "120",
        "--hours",
        "60",
        "--out",
        path.to_str().unwrap(),
    ]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let table = std::fs::read_to_string(path).unwrap();
    assert!(table.lines().last().unwrap().starts_with("60,"));
}

#[test]
fn verdict_in_words_and_as_ron() {
    let out = potset(&["verdict", "coconut-pot.ron"]);
    assert_eq!(out.status.code(), Some(0));
    let words = text(&out.stdout);
    for part in [
        "Nothing known against it",
        "About half are ready by",
        "dollops",
        "bright",
        "g/L left",
        "Follow local codes",
    ] {
        assert!(words.contains(part), "{part} in {words}");
    }
    let out = potset(&["verdict", "coconut-pot.ron", "--ron"]);
    let value: ron::Value = ron::from_str(&text(&out.stdout)).unwrap();
    let ron::Value::Map(map) = value else { panic!("a table of fields") };
    let ph = map.iter().find(|(k, _)| **k == ron::Value::String("ph".into()));
    assert!(ph.is_some() || text(&out.stdout).contains("ph: 4."), "{}", text(&out.stdout));
}

#[test]
fn bad_input_ends_with_two_and_a_sentence() {
    for (arguments, part) in [
        (vec!["verdict", "nowhere.ron"], "could not be read"),
        (vec!["verdict"], "No design was named"),
        (vec!["verdict", "Cargo.toml"], "line 1"),
        (vec!["forecast", "coconut-pot.ron", "--every", "soon"], "--every"),
        (vec!["forecast", "coconut-pot.ron", "--evry", "3"], "no such option"),
        (vec!["picture", "coconut-pot.ron"], "--out"),
        (vec!["picture", "coconut-pot.ron", "--out", "x.png", "--theme", "blue"], "light or dark"),
        (vec!["nowhere.ron"], "could not be read"),
        (vec!["--frob"], "no such option"),
    ] {
        let out = potset(&arguments);
        assert_eq!(out.status.code(), Some(2), "{arguments:?}");
        let said = text(&out.stderr);
        assert!(said.contains(part), "{arguments:?}: {said}");
        assert!(!said.contains("panicked"), "{said}");
    }
}

#[test]
fn without_a_display_the_window_ends_with_three_and_a_plain_sentence() {
    let out = potset(&[]);
    assert_eq!(out.status.code(), Some(3));
    let said = text(&out.stderr);
    assert!(said.contains("no window can be opened here") && said.contains("libgl1"), "{said}");
    assert!(!said.contains("panicked"), "{said}");
}

#[test]
fn a_picture_is_drawn_without_a_display() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("bench.png");
    let name = path.to_str().unwrap();
    let out = potset(&[
        "picture",
        "coconut-pot.ron",
        "--out",
        name,
        "--size",
        "1280x800",
        "--theme",
        "dark",
        "--zoom",
        "1.5",
    ]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let picture = image::open(&path).unwrap().to_rgba8();
    assert_eq!(picture.dimensions(), (1280, 800));
    let first = picture.pixels().next().unwrap();
    let other = picture.pixels().filter(|p| *p != first).count();
    assert!(other > 100_000, "it shows something: {other}");
    assert!(first.0[..3].iter().all(|c| *c < 80), "dark: {first:?}");
}

#[test]
fn evidence_tells_misses_fits_and_sources() {
    let out = potset(&["evidence"]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let report = text(&out.stdout);
    for part in [
        "toba1983",
        "freedom",
        "helped to set shared parameters",
        "misses, beyond",
        "values fitted",
        "assumed",
    ] {
        assert!(report.contains(part), "{part} is not in the report");
    }
    let one = potset(&["evidence", "--case", "toba1983"]);
    let words = text(&one.stdout);
    assert!(words.contains("J Dairy Sci 66:17") && words.contains("assumed:"), "{words}");
    let table = text(&potset(&["evidence", "--csv"]).stdout);
    let columns = |line: &str| line.split(',').count();
    assert!(table.lines().count() > 100 && columns(table.lines().next().unwrap()) == 12);
    assert_eq!(potset(&["evidence", "--case", "nothing"]).status.code(), Some(2));
    assert_eq!(potset(&["evidence", "a.ron"]).status.code(), Some(2));
}

#[test]
fn label_tells_what_it_says_what_it_took_from_it_and_what_it_did_not_understand() {
    let out = potset(&["label", "tests/data/labels/02-milk-median.txt"]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let report = text(&out.stdout);
    for part in [
        "fat: 17.5 g",
        "kind: coconut (sure",
        "nearest base: Tinned coconut milk",
        "preserved against souring",
        "class by Codex CXS 240: coconut milk",
        "cream share: fat as of 70 % usual cream and 30 % water",
        "instead of Tinned coconut cream",
        "not in this forecast, because no amount is known: guar gum, sodium benzoate",
        "Every line was understood",
    ] {
        assert!(report.contains(part), "{part} in {report}");
    }
    let spoiled = text(&potset(&["label", "tests/data/labels/26-spoiled-ocr.txt"]).stdout);
    assert!(spoiled.contains("4: Fat 2l.3 g"), "{spoiled}");
}

#[test]
fn the_pantry_asks_for_a_name_and_shows_all_that_share_a_key() {
    let empty = potset(&["pantry", ""]);
    assert_ne!(empty.status.code(), Some(0));
    assert!(text(&empty.stderr).contains("name is empty"), "{}", text(&empty.stderr));
    let both = text(&potset(&["pantry", "skim_milk_powder"]).stdout);
    assert!(
        both.contains("(base, skim_milk_powder)") && both.contains("(thickener, skim_milk_powder)"),
        "{both}"
    );
}

#[test]
fn what_is_no_label_is_refused() {
    let dir = tempfile::tempdir().unwrap();
    let path = |name: &str, bytes: &[u8]| {
        let path = dir.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path.to_str().unwrap().to_owned()
    };
    for (file, part) in [
        ("tests/data/labels/33-spoiled-empty.txt".to_owned(), "empty"),
        (path("nul", b"Fat\0 3 g"), "no text"),
        (path("latin", b"Fat 3 g \xff"), "UTF-8"),
        (path("long", &b"Fat 3 g\n".repeat(20_000)), "too long"),
        ("nowhere.txt".to_owned(), "could not be read"),
    ] {
        let out = potset(&["label", &file]);
        assert_eq!(out.status.code(), Some(2), "{file}");
        assert!(text(&out.stderr).contains(part), "{part} in {}", text(&out.stderr));
    }
    let none = potset(&["label"]);
    assert!(none.status.code() == Some(2) && text(&none.stderr).contains("No label was named"));
}

#[test]
fn pantry_lists_shows_and_checks() {
    let list = potset(&["pantry"]);
    assert_eq!(list.status.code(), Some(0), "{}", text(&list.stderr));
    let all = text(&list.stdout);
    for head in [
        "Bases (",
        "Sugars (",
        "Thickeners (",
        "Cultures (",
        "Warmers (",
        "Vessels (",
        "Starting ingredients (",
    ] {
        assert!(all.contains(head), "{head}");
    }
    let page = text(&potset(&["pantry", "goats_milk"]).stdout);
    assert!(
        page.contains("composition.protein")
            && page.contains("published")
            && page.contains("allergens: milk")
    );
    let several = text(&potset(&["pantry", "coconut"]).stdout);
    assert!(several.contains("may mean"), "{several}");
    let none = potset(&["pantry", "moonlight"]);
    assert_eq!(none.status.code(), Some(2));
    assert!(text(&none.stderr).contains("nothing of this name"));
    let check = potset(&["pantry", "--check"]);
    assert_eq!(check.status.code(), Some(0), "{}", text(&check.stdout));
    assert!(text(&check.stdout).contains("All in order"));
}

#[test]
fn beside_tells_what_differs_and_why() {
    let out = potset(&["beside", "whole-milk-pot.ron", "coconut-pot.ron"]);
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let told = text(&out.stdout);
    for words in ["What differs", "you stop at", "you would notice", "Because of", "pH 4.6 reached"] {
        assert!(told.contains(words), "{words} is not in {told}");
    }
    let same = text(&potset(&["beside", "coconut-pot.ron", "coconut-pot.ron"]).stdout);
    assert!(same.contains("nothing differs"), "{same}");
    let table = text(&potset(&["beside", "whole-milk-pot.ron", "coconut-pot.ron", "--csv"]).stdout);
    assert!(table.starts_with("kind,part,name,unit,Whole milk pot,Thursday coconut pot\n"), "{table}");
    let columns = |line: &str| line.split(',').count();
    let held = table.lines().find(|l| l.contains("held at")).unwrap();
    assert_eq!((held, columns(held)), ("input,warmth,held at,°C,41,40", 6));
    let page = text(&potset(&["beside", "whole-milk-pot.ron", "coconut-pot.ron", "--markdown"]).stdout);
    assert!(page.contains("| held at | 41.0\u{a0}°C | 40.0\u{a0}°C |"), "{page}");
    let folder = tempfile::tempdir().unwrap();
    for ending in ["csv", "md", "txt", "svg", "png"] {
        let file = folder.path().join(format!("pots.{ending}")).display().to_string();
        let out = potset(&["beside", "whole-milk-pot.ron", "coconut-pot.ron", "--out", &file]);
        assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
        assert!(std::fs::metadata(&file).unwrap().len() > 500, "{ending}");
    }
    let odd = potset(&["beside", "whole-milk-pot.ron", "coconut-pot.ron", "--out", "pots.doc"]);
    assert_eq!(odd.status.code(), Some(2));
    assert!(text(&odd.stderr).contains(".svg"));
    let two = ["beside", "whole-milk-pot.ron", "coconut-pot.ron"];
    let torn = potset(&[&two[..], &["--csv", "--out", "pots.png"]].concat());
    assert_eq!(torn.status.code(), Some(2));
    assert!(text(&torn.stderr).contains("another form"), "{}", text(&torn.stderr));
    let file = folder.path().join("same.csv").display().to_string();
    let csv = potset(&[&two[..], &["--csv", "--out", &file]].concat());
    assert_eq!((csv.status.code(), std::fs::read_to_string(&file).unwrap()), (Some(0), table));
    let five = potset(&["beside", "coconut-pot.ron", "a.ron", "b.ron", "c.ron", "d.ron"]);
    assert_eq!(five.status.code(), Some(2));
    let one = potset(&["beside", "coconut-pot.ron"]);
    assert_eq!(one.status.code(), Some(2));
    assert!(text(&one.stderr).contains("nothing beside it"));
}

#[test]
fn aim_proposes_and_hands_out_a_design_or_says_what_blocks() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("aimed.ron");
    let asked = ["aim", "coconut-pot.ron", "--want", "ph<=4.2", "--want", "ready<=20h", "--move", "Stop at"];
    let out = potset(&[&asked[..], &["--move", "Hold at", "--out", path.to_str().unwrap()]].concat());
    assert_eq!(out.status.code(), Some(0), "{}", text(&out.stderr));
    let told = text(&out.stdout);
    for part in [
        "pH ≤ 4.2; all goals reached and stopped within 20\u{a0}h",
        "1  ",
        "Stop at",
        "possible pots",
        "Trade-offs",
        "as it is",
    ] {
        assert!(told.contains(part), "{part} in {told}");
    }
    assert!(told.ends_with(&format!("\nSetting 1 was written to {}\n", path.display())), "{told}");
    // As it is it misses, and has its chance in the table too.
    let chances = told.lines().find(|line| line.starts_with("pots where all goals hold")).unwrap();
    assert!(chances.contains("of 200") || chances.matches(" in ").count() >= 2, "{chances}");
    let made = text(&potset(&["verdict", path.to_str().unwrap()]).stdout);
    assert!(made.contains("Thursday coconut pot, stopped at"), "{made}");

    let out = potset(&["aim", "coconut-pot.ron", "--want", "ready<=3h", "--move", "Stop at"]);
    assert_eq!(out.status.code(), Some(1), "{}", text(&out.stderr));
    let told = text(&out.stdout);
    assert!(
        told.contains("reached and stopped within 3\u{a0}h blocks")
            && told.contains("Not all goals hold: ")
            && told.contains("The nearest setting found"),
        "{told}"
    );

    // What the design does already is no failure, and with one lever that does nothing for it there is nothing to change.
    let asked = ["aim", "coconut-pot.ron", "--want", "sugar<=40", "--move", "Hours in the fridge"];
    let out = potset(&[&asked[..], &["--out", path.to_str().unwrap()]].concat());
    let told = text(&out.stdout);
    assert_eq!(out.status.code(), Some(0), "{told}{}", text(&out.stderr));
    assert!(told.contains("Your design already does this in ") && !told.contains("\n1  "), "{told}");
    assert!(told.contains("nothing to change") && told.contains("Your design was written to"), "{told}");

    for (arguments, said) in [
        (&["aim", "coconut-pot.ron"][..], "--want: No goal is set"),
        (
            &["aim", "coconut-pot.ron", "--want", "ph<=4.3", "--want", "ph>=4.6"],
            "--want: No pot can be both pH ≤ 4.3 and pH ≥ 4.6. Remove one of them",
        ),
        (
            &["aim", "coconut-pot.ron", "--want", "vegan", "--hold", "nonsense"],
            "--hold nonsense: The design has",
        ),
        (&["aim", "coconut-pot.ron", "--want", "vegan", "--out", "no/such/aimed.ron"], "no folder no/such"),
        (&["aim", "coconut-pot.ron", "--want", "texture=chewy"], "--want texture=chewy"),
        (
            &["aim", "coconut-pot.ron", "--want", "vegan", "--move", "Moonlight"],
            "--move Moonlight: The design",
        ),
        (&["aim", "coconut-pot.ron", "--want", "vegan", "--seed", "x"], "--seed"),
        (&["aim", "--want", "vegan"], "No design was named"),
        (
            &["aim", "coconut-pot.ron", "--want", "vegan", "--usual", "--unusual"],
            "--usual: It says the opposite of --unusual",
        ),
    ] {
        let out = potset(arguments);
        assert_eq!(out.status.code(), Some(2));
        assert!(text(&out.stderr).contains(said), "{}", text(&out.stderr));
    }
}

#[test]
fn each_command_tells_its_own_usage_from_the_table_of_all() {
    let whole = text(&potset(&["help"]).stdout);
    for name in [
        "forecast", "verdict", "beside", "aim", "matters", "label", "packet", "clock", "card", "leaflet",
        "lesson", "runsheet", "learn", "mishap", "log", "recipes", "pantry", "picture", "evidence",
    ] {
        let out = potset(&[name, "--help"]);
        assert_eq!(out.status.code(), Some(0), "{name}: {}", text(&out.stderr));
        let told = text(&out.stdout);
        assert!(told.starts_with(&format!("potset {name} ")), "{told}");
        let own = told.split("\n\n").next().unwrap();
        assert!(whole.contains(own), "{name} is told otherwise in the help of all");
        assert_eq!(text(&potset(&["help", name]).stdout), told);
        assert_eq!(text(&potset(&[name, "coconut-pot.ron", "-h"]).stdout), told);
    }
    assert!(text(&potset(&["aim", "--help"]).stdout).contains("the tighter counts"));
    // A name that is none is no help.
    assert_eq!(text(&potset(&["--help"]).stdout), whole);
}

#[test]
fn the_window_opens_on_a_demo_by_its_name() {
    // There is no display here: what can be read ends at the window, what cannot before it.
    let out = potset(&["coconut-with-fruit.ron"]);
    assert_eq!(out.status.code(), Some(3), "{}", text(&out.stderr));
    let out = potset(&["no-such-demo.ron"]);
    assert_eq!(out.status.code(), Some(2), "{}", text(&out.stderr));
}

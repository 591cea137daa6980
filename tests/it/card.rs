//! The card and the leaflet: every amount is read back from the PDF, and no text is cut, covered or too small on any paper.

use std::sync::LazyLock;

use potset_base::units::{self, Degrees, Units};
use potset_doc::card_text::CardText;
use potset_doc::{Design, Edit, Kitchen, Learnt, assets, edit, format};
use potset_doubt::ready_times;
use potset_export::svg::Drawing;
use potset_forecast::scenario::Scenario;
use potset_judge::answer::answer;
use potset_judge::ready::ReadyTime;
use potset_paper::{Form, Size, pages, pdf};
use potset_report::card::{self, Block, Body, CardAsk, Line, Part, Said, Sheet, StepLine, Table};
use potset_report::leaflet;
use proptest::prelude::*;

use crate::export::texts;
use crate::support::shipped;

/// Card and leaflet of a design in the usual kitchen.
fn sheets(design: &Design, ready: Option<&ReadyTime>) -> [Sheet; 2] {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
    let answer = answer(&scenario);
    assert!(answer.errors.is_empty(), "{:?}", answer.errors);
    let ask = CardAsk { scenario: &scenario, answer: &answer, ready, watch: None, version: Some(3) };
    [card::sheet(&ask), leaflet::sheet(&ask)]
}

/// Card and leaflet of every demo, by its file.
static DEMOS: LazyLock<Vec<(&str, [Sheet; 2])>> = LazyLock::new(|| {
    let all = assets::DEMOS.iter().map(|(file, _)| {
        let design = assets::demo(file).unwrap();
        let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
        let scenario = Scenario { design: &design, pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
        let ready = ready_times::of(&scenario).unwrap();
        (*file, sheets(&design, Some(&ready)))
    });
    all.collect()
});

fn demo(file: &str) -> &'static Sheet {
    &DEMOS.iter().find(|(name, _)| *name == file).unwrap().1[0]
}

/// The texts of a PDF without blanks, in the order in which they were written.
pub fn text_of(bytes: &[u8]) -> String {
    let document = lopdf::Document::load_mem(bytes).unwrap();
    let numbers: Vec<u32> = document.get_pages().keys().copied().collect();
    bare(&document.extract_text(&numbers).unwrap())
}

fn bare(text: &str) -> String {
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

/// Every cell of the amounts, in pieces that no line end parts.
fn amounts(sheet: &Sheet) -> Vec<String> {
    let tables = sheet.blocks.iter().filter(|block| matches!(block.part, Part::Amounts | Part::Dose));
    let rows = tables.flat_map(|block| match &block.body {
        Body::Table(table) => table.rows.clone(),
        _ => Vec::new(),
    });
    rows.flatten().flat_map(|cell| cell.split(' ').map(bare).collect::<Vec<_>>()).collect()
}

#[test]
fn every_amount_of_every_demo_is_read_back_from_the_pdf_of_every_size() {
    for (file, both) in DEMOS.iter() {
        for (sheet, size) in both.iter().flat_map(|sheet| Size::ALL.map(|size| (sheet, size))) {
            let text = text_of(&pdf(&pages(sheet, size), &sheet.name).unwrap());
            let wanted = amounts(sheet);
            assert!(wanted.len() > 5, "{file}");
            for words in wanted.iter().chain([&bare(&sheet.tag)]) {
                assert!(text.contains(words.as_str()), "{file}, {size:?}: {words} is not in\n{text}");
            }
        }
    }
}

/// That nothing of a page lies outside of it, on another text, or is too small; gives its texts.
fn legible(page: &Drawing, size: Size, whose: &str) -> String {
    let svg = page.svg();
    let (texts, (wide, high)) = texts(&svg);
    assert!(texts.len() > 2, "{whose}");
    let edge = 0.5 * size.margin() as f32;
    for (words, at) in &texts {
        let inside =
            at.left() >= edge && at.right() <= wide - edge && at.top() >= edge && at.bottom() <= high - edge;
        assert!(inside, "{whose}, {size:?}: {words:?} at {at:?} of {wide} x {high}");
    }
    for (i, (a, at)) in texts.iter().enumerate() {
        for (b, to) in &texts[i + 1..] {
            let across = at.right().min(to.right()) - at.left().max(to.left());
            let down = at.bottom().min(to.bottom()) - at.top().max(to.top());
            // A box goes from the top of the highest letter to the foot of the lowest: those of two lines touch.
            let touch = 0.26 * at.height().min(to.height());
            assert!(
                across <= 0.1 || down <= touch,
                "{whose}, {size:?}: {a:?} at {at:?} covers {b:?} at {to:?}"
            );
        }
    }
    let sizes =
        svg.split("font-size=\"").skip(1).map(|rest| rest.split('"').next().unwrap().parse::<f64>().unwrap());
    let least = sizes.fold(f64::INFINITY, f64::min);
    let bound = if size == Size::Wall { 26.0 } else { 7.0 };
    assert!(least >= bound, "{whose}, {size:?}: a text of {least} pt");
    texts.into_iter().map(|(words, _)| words).collect()
}

#[test]
fn no_text_of_a_demo_is_cut_or_covered_or_too_small() {
    for (file, both) in DEMOS.iter() {
        for (sheet, size) in both.iter().flat_map(|sheet| Size::ALL.map(|size| (sheet, size))) {
            pages(sheet, size).iter().for_each(|page| drop(legible(page, size, file)));
        }
    }
}

#[test]
fn a_card_of_a_demo_fits_on_one_sheet_of_a4_and_letter_and_a_leaflet_too() {
    for (file, both) in DEMOS.iter() {
        for (sheet, size) in both.iter().flat_map(|sheet| [Size::A4, Size::Letter].map(|size| (sheet, size)))
        {
            assert_eq!(pages(sheet, size).len(), 1, "{file}, {size:?}");
        }
        assert!(pages(&both[1], Size::A5).len() <= 2, "{file}");
    }
}

/// Words of any length, some of them without a blank.
fn words(most: usize) -> impl Strategy<Value = String> {
    prop_oneof![
        proptest::collection::vec("[A-Za-zäöüß°%&<>é½-]{1,12}", 1..=most.max(2) / 6 + 1)
            .prop_map(|all| all.join(" ")),
        "[A-Za-z0-9]{1,4}".prop_map(move |one| one.repeat(most / 4 + 1)),
        Just("W".repeat(most)),
    ]
}

fn sheet_of(name: String, cells: Vec<Vec<String>>, steps: &[String], notes: &[String]) -> Sheet {
    let said = |words: &String| Said { generated: words.clone(), words: words.clone(), own: false };
    let step = |words: &String| StepLine {
        at_h: 0.0,
        when: "Fri 09:30".to_owned(),
        said: said(words),
        sign: Some(said(words)),
    };
    let head = ["", "weight", "measure"].map(str::to_owned).to_vec();
    let below = notes.iter().take(1).map(|words| Line::plain(words.clone())).collect();
    let lines = notes.iter().map(|words| Line {
        lead: "Note".to_owned(),
        words: words.clone(),
        source: words.clone(),
    });
    let block = |part: Part, body: Body| Block { part, body };
    let demo = demo("coconut-pot.ron");
    Sheet {
        name,
        blocks: vec![
            block(Part::Amounts, Body::Table(Table { head, rows: cells, below })),
            block(Part::Steps, Body::Steps(steps.iter().map(step).collect())),
            block(Part::Notes, Body::Lines(lines.collect())),
            block(Part::Checks, Body::Lines(vec![Line::plain("Check it")])),
        ],
        ..demo.clone()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    #[test]
    fn texts_of_any_length_flow_on_and_none_is_lost(
        name in words(900),
        cells in proptest::collection::vec(proptest::collection::vec(words(120), 3), 0..20),
        steps in proptest::collection::vec(words(300), 0..15),
        notes in proptest::collection::vec(words(1200), 0..5),
        size in proptest::sample::select(Size::ALL.to_vec()),
    ) {
        let sheet = sheet_of(name, cells, &steps, &notes);
        let pages = pages(&sheet, size);
        let drawn: String = pages.iter().map(|page| legible(page, size, "a random sheet")).collect();
        let letters = |text: &str| text.chars().filter(|c| *c == 'W').count();
        let mut wanted = letters(&sheet.name);
        for block in sheet.blocks.iter().filter(|block| size != Size::Wall || block.part != Part::Notes) {
            wanted += match &block.body {
                Body::Table(t) => t.rows.iter().flatten().map(|c| letters(c)).sum::<usize>()
                    + t.below.iter().map(|line| letters(&line.words)).sum::<usize>(),
                Body::Steps(all) => all.iter().map(|step| 2 * letters(&step.said.words)).sum(),
                Body::Lines(all) => all.iter().map(|l| letters(&l.words) + letters(&l.source)).sum(),
                Body::Room(_) => 0,
            };
        }
        // The program's own words hold one now and then, the foot on each page none.
        prop_assert!(letters(&drawn) >= wanted, "{} of {wanted} letters on {} pages", letters(&drawn), pages.len());
    }
}

#[test]
fn the_same_sheet_gives_the_same_bytes_in_every_form() {
    let sheet = demo("whole-milk-pot.ron");
    for form in Form::ALL {
        let first = form.files(sheet, Size::A5).unwrap();
        assert_eq!(first, form.files(&sheet.clone(), Size::A5).unwrap(), "{form:?}");
        assert!(first.iter().all(|bytes| form.holds()(bytes)), "{form:?}");
    }
    let several = Form::Svg.files(sheet, Size::A5).unwrap();
    assert!(several.len() > 1, "one file for each page");
}

#[test]
fn a_code_has_six_signs_and_changes_with_the_design_alone() {
    let design = assets::demo("coconut-pot.ron").unwrap();
    let code = card::code(&design);
    assert!(code.len() == 6 && code.chars().all(|c| c.is_ascii_digit() || c.is_ascii_uppercase()), "{code}");
    assert!(!code.contains(['I', 'L', 'O', 'U']));
    let apply = |edit: &Edit| edit::apply(&design, edit, shipped()).unwrap();
    let worded = apply(&Edit::CardSentence("Stir the culture in".into(), Some("Sprinkle it over".into())));
    assert_eq!(card::code(&worded), code);
    assert_ne!(card::code(&apply(&Edit::SugarDose(0, 9.5))), code);
    let all: std::collections::BTreeSet<String> =
        assets::DEMOS.iter().map(|(file, _)| card::code(&assets::demo(file).unwrap())).collect();
    assert_eq!(all.len(), assets::DEMOS.len());
}

fn steps(sheet: &Sheet) -> &[StepLine] {
    match &sheet.block(Part::Steps).unwrap().body {
        Body::Steps(steps) => steps,
        _ => panic!("steps are steps"),
    }
}

#[test]
fn the_makers_own_sentence_stands_until_the_program_says_something_else() {
    let design = assets::demo("coconut-pot.ron").unwrap();
    let [plain, _] = sheets(&design, None);
    let warm = steps(&plain).iter().find(|step| step.said.generated.starts_with("Warm to 42")).unwrap();
    let own =
        Edit::CardSentence(warm.said.generated.clone(), Some("Warm it gently, never above 45 °C".into()));
    let worded = edit::apply(&design, &own, shipped()).unwrap();
    let saved = format::write(&worded).unwrap();
    assert_eq!(format::read_design(saved.as_bytes()).unwrap(), worded);
    let [sheet, _] = sheets(&worded, None);
    let said: Vec<&Said> = steps(&sheet).iter().map(|step| &step.said).filter(|said| said.own).collect();
    assert_eq!(said.len(), 1);
    assert_eq!(said[0].words, "Warm it gently, never above 45 °C");
    assert!(sheet.outdated.is_empty());
    let warmer = edit::apply(&worded, &Edit::CultureTemperature(44.0), shipped()).unwrap();
    let [sheet, _] = sheets(&warmer, None);
    assert!(steps(&sheet).iter().all(|step| !step.said.own));
    assert_eq!(sheet.outdated.len(), 1);
    let off = Edit::CardSentence(warm.said.generated.clone(), None);
    assert_eq!(edit::apply(&worded, &off, shipped()).unwrap(), design);
    assert_eq!(design.card, CardText::default());
}

#[test]
fn both_degrees_stand_on_the_card_and_those_of_the_kitchen_first() {
    let design = assets::demo("coconut-pot.ron").unwrap();
    let warm = |sheet: &Sheet| {
        let step = steps(sheet).iter().find(|step| step.said.generated.starts_with("Warm to 42")).unwrap();
        step.said.words.replace('\u{a0}', " ")
    };
    assert!(warm(&sheets(&design, None)[0]).starts_with("Warm to 42 °C (108 °F)"));
    let _speaking = units::speak(Units { degrees: Degrees::Fahrenheit, ..Units::default() });
    assert!(warm(&sheets(&design, None)[0]).starts_with("Warm to 108 °F (42 °C)"));
}

#[test]
fn a_lost_pot_says_so_first_and_nobody_is_told_to_eat_it() {
    let lost = DEMOS.iter().filter(|(_, [sheet, _])| sheet.first.starts_with("Throw it away"));
    let mut seen = 0;
    for (file, [sheet, _]) in lost {
        seen += 1;
        assert!(sheet.large.is_empty() && sheet.block(Part::Keeping).is_none(), "{file}");
        assert!(steps(sheet).iter().all(|step| !step.said.words.contains("eat it")), "{file}");
    }
    assert!(seen > 0, "a demo is to be thrown away");
}

#[test]
fn every_line_of_a_design_is_an_amount_by_weight() {
    for (file, [sheet, _]) in DEMOS.iter() {
        let design = assets::demo(file).unwrap();
        let Body::Table(table) = &sheet.block(Part::Amounts).unwrap().body else { panic!("{file}") };
        let lines: usize = edit::LineKind::ALL.into_iter().map(|shelf| design.lines(shelf).len()).sum();
        assert!(table.rows.len() >= lines, "{file}");
        for row in &table.rows {
            assert!(
                row[1].ends_with('g') && row[1].starts_with(|c: char| c.is_ascii_digit()),
                "{file}: {row:?}"
            );
        }
        assert!(
            table.rows.iter().filter(|row| !row[2].is_empty()).count() >= lines - 1,
            "{file}: {:?}",
            table.rows
        );
    }
}

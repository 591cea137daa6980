//! What is handed out of designs beside each other: pictures that can be read back, tables that hold what the screen shows.

use potset_base::{palette, typeface};
use potset_compare::beside::{Comparison, answers, beside};
use potset_doc::{Design, Kitchen, Learnt};
use potset_export::beside_file::Form;
use potset_forecast::scenario::Scenario;
use potset_science::Forecast;
use resvg::usvg::{Node, Options, Rect, Tree};

use crate::support::{demo, shipped};

fn told(names: &[&str]) -> (Comparison, Vec<Forecast>) {
    let designs: Vec<Design> = names.iter().map(|name| demo(name)).collect();
    told_of(&designs)
}

fn told_of(designs: &[Design]) -> (Comparison, Vec<Forecast>) {
    let (kitchen, learnt) = (Kitchen::default(), Learnt::default());
    let scenario = Scenario { design: &designs[0], pantry: shipped(), kitchen: &kitchen, learnt: &learnt };
    let others: Vec<&Design> = designs.iter().skip(1).collect();
    let all: Vec<&Design> = designs.iter().collect();
    let forecasts = answers(&scenario, &all).into_iter().map(|a| a.forecast).collect();
    (beside(&scenario, &others).unwrap(), forecasts)
}

fn bytes(form: Form, (told, forecasts): &(Comparison, Vec<Forecast>)) -> Vec<u8> {
    form.bytes(told, &forecasts.iter().collect::<Vec<_>>()).unwrap()
}

#[test]
fn a_picture_holds_names_sentences_and_curves_inside_its_edges() {
    for names in [
        &["whole-milk-pot.ron", "coconut-pot.ron"][..],
        &["whole-milk-pot.ron", "coconut-pot.ron", "oat-and-coconut.ron", "coconut-no-sugar.ron"],
    ] {
        let told = told(names);
        let svg = String::from_utf8(bytes(Form::Svg, &told)).unwrap();
        for name in &told.0.names {
            assert!(svg.contains(name.as_str()), "{name}");
        }
        for words in
            ["Sourness", "Sugar", "Texture, chilled", "When they are ready", "What it does", "noticed"]
        {
            assert!(svg.contains(words), "{words}");
        }
        // Five quantities for each design.
        let curves =
            svg.lines().filter(|l| l.starts_with("<polyline") && l.contains("stroke-width=\"2.2\"")).count();
        assert_eq!(curves, 5 * names.len());
        let tree = Tree::from_str(&svg, &Options::default()).unwrap();
        let size = tree.size();
        let mut boxes = 0;
        for node in tree.root().children() {
            if let Node::Path(path) = node {
                let rect = path.abs_bounding_box();
                assert!(rect.left() >= -1.0 && rect.right() <= size.width() + 1.0, "{rect:?}");
                assert!(rect.top() >= -1.0 && rect.bottom() <= size.height() + 1.0, "{rect:?}");
                boxes += 1;
            }
        }
        assert!(boxes > 60);
        assert_eq!(bytes(Form::Svg, &told), bytes(Form::Svg, &told));
    }
}

/// Every text of a picture with its box, set in the type that pictures are drawn in.
pub fn texts(svg: &str) -> (Vec<(String, Rect)>, (f32, f32)) {
    let mut options = Options::default();
    for face in [typeface::REGULAR, typeface::SEMIBOLD, typeface::ITALIC] {
        options.fontdb_mut().load_font_data(face.to_vec());
    }
    let tree = Tree::from_str(svg, &options).unwrap();
    let mut out = Vec::new();
    let mut open: Vec<&Node> = tree.root().children().iter().collect();
    while let Some(node) = open.pop() {
        match node {
            Node::Group(group) => open.extend(group.children()),
            Node::Text(text) => {
                let words = text.chunks().iter().map(|chunk| chunk.text()).collect();
                out.push((words, text.abs_bounding_box()));
            }
            _ => {}
        }
    }
    (out, (tree.size().width(), tree.size().height()))
}

#[test]
fn no_text_of_a_picture_is_clipped_or_covers_another() {
    let named = |name: &str| {
        let mut design = demo("coconut-pot.ron");
        name.clone_into(&mut design.name);
        design
    };
    let long = "A very long-winded coconut pot that was made on a dry Friday for the class of beginners";
    let groups = [
        vec![demo("whole-milk-pot.ron"), demo("coconut-pot.ron")],
        vec![demo("whole-milk-pot.ron"), demo("coconut-no-sugar.ron"), named(long)],
        // Four with the same curves: their names, stop lines and ready windows all want the same place.
        vec![named(long), named(long), named("W".repeat(400).as_str()), named("& <b> \"q\"")],
        vec![
            demo("whole-milk-pot.ron"),
            demo("strained-milk-pot.ron"),
            demo("oat-and-coconut.ron"),
            demo("drinking-yogurt.ron"),
        ],
    ];
    for designs in &groups {
        let told = told_of(designs);
        let (texts, (wide, high)) = texts(&String::from_utf8(bytes(Form::Svg, &told)).unwrap());
        assert!(texts.len() > 60, "{}", texts.len());
        for (words, at) in &texts {
            let inside = at.left() >= 0.0 && at.right() <= wide && at.top() >= 0.0 && at.bottom() <= high;
            assert!(inside, "{words:?} at {at:?} of {wide} x {high}");
        }
        for (i, (a, at)) in texts.iter().enumerate() {
            for (b, to) in &texts[i + 1..] {
                // Boxes go from the top of the highest letter to the foot of the lowest: lines of one text touch there.
                let across = at.right().min(to.right()) - at.left().max(to.left());
                let down = at.bottom().min(to.bottom()) - at.top().max(to.top());
                assert!(across <= 0.0 || down <= 3.0, "{a:?} at {at:?} covers {b:?} at {to:?}");
            }
        }
    }
}

#[test]
fn designs_with_one_stop_show_a_marker_each() {
    let same = told(&["coconut-pot.ron", "coconut-pot.ron", "coconut-pot.ron", "coconut-pot.ron"]);
    let svg = String::from_utf8(bytes(Form::Svg, &same)).unwrap();
    let colour = format!("fill=\"#{:06x}\"", palette::STOP_LINE);
    let markers: Vec<&str> = svg
        .lines()
        .filter(|l| l.contains(&colour) && (l.starts_with("<circle") || l.starts_with("<polygon")))
        .collect();
    assert_eq!(markers.len(), 4, "{markers:?}");
    let tree = Tree::from_str(
        &format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"2000\" height=\"2000\">{}</svg>",
            markers.concat()
        ),
        &Options::default(),
    )
    .unwrap();
    let mut spans: Vec<(f32, f32)> = tree
        .root()
        .children()
        .iter()
        .map(|node| (node.abs_bounding_box().left(), node.abs_bounding_box().right()))
        .collect();
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    assert!(spans.windows(2).all(|pair| pair[0].1 <= pair[1].0), "{spans:?}");
}

#[test]
fn a_png_is_twice_as_large_as_the_drawing() {
    let told = told(&["whole-milk-pot.ron", "coconut-pot.ron"]);
    let svg = String::from_utf8(bytes(Form::Svg, &told)).unwrap();
    let size = Tree::from_str(&svg, &Options::default()).unwrap().size();
    let picture = image::load_from_memory(&bytes(Form::Png, &told)).unwrap();
    let twice = |v: f32| (2.0 * v).round();
    assert!((f64::from(picture.width()) - f64::from(twice(size.width()))).abs() <= 2.0);
    assert!((f64::from(picture.height()) - f64::from(twice(size.height()))).abs() <= 2.0);
    // Not a blank page: curves in several colours.
    let colours: std::collections::BTreeSet<[u8; 4]> = picture.to_rgba8().pixels().map(|p| p.0).collect();
    assert!(colours.len() > 200, "{}", colours.len());
}

#[test]
fn odd_names_break_neither_table_nor_picture() {
    let mut odd = demo("whole-milk-pot.ron");
    odd.name = "Milk | <b>\"pot\"</b>, & more\nof it \u{202e}dna a very long name that does not end so soon"
        .to_owned();
    let told = told_of(&[odd, demo("coconut-pot.ron")]);
    let svg = String::from_utf8(bytes(Form::Svg, &told)).unwrap();
    assert!(Tree::from_str(&svg, &Options::default()).is_ok());
    assert!(!svg.contains("<b>"));
    let csv = String::from_utf8(bytes(Form::Csv, &told)).unwrap();
    assert!(csv.contains("\"Milk | <b>\"\"pot\"\"</b>, & more"));
    // A reader finds the name whole again, and as many cells in each line.
    let mut read = csv::Reader::from_reader(csv.as_bytes());
    assert_eq!(read.headers().unwrap().get(4), Some(told.0.names[0].as_str()));
    assert!(read.records().all(|line| line.is_ok()));
    let page = String::from_utf8(bytes(Form::Markdown, &told)).unwrap();
    let columns = |line: &str| line.replace("\\|", "").matches('|').count();
    for table in page.split("\n\n").filter(|part| part.starts_with('|')) {
        let counts: Vec<usize> = table.lines().map(columns).collect();
        assert!(counts.windows(2).all(|pair| pair[0] == pair[1]), "{table}");
    }
}

#[test]
fn the_tables_hold_what_differs_what_it_does_and_why() {
    let told = told(&["whole-milk-pot.ron", "coconut-pot.ron"]);
    let csv = String::from_utf8(bytes(Form::Csv, &told)).unwrap();
    for start in ["input,base,fat of the mix,%,", "outcome,,sugar left,g/L,", "share,base,sugar left,g/L,"] {
        assert!(csv.lines().any(|l| l.starts_with(start)), "{start} is not in {csv}");
    }
    let text = String::from_utf8(bytes(Form::Text, &told)).unwrap();
    assert!(text.starts_with(&potset_report::beside::sentence(&told.0, 1)));
}

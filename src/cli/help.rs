//! What each command takes and does: one table for the help of the whole program and for that of each command.

/// A command: its name, what comes after it, and what it does, a line each.
struct Command {
    name: &'static str,
    takes: &'static str,
    does: &'static [&'static str],
}

const COMMANDS: [Command; 19] = [
    Command {
        name: "forecast",
        takes: "FILE [--every MIN] [--hours H] [--spread [N] [--seed S]] [--out F.csv]",
        does: &[
            "the curves as CSV, each line computed at its time; with bands and chances of N possible",
            "pots, read between their own times",
        ],
    },
    Command { name: "verdict", takes: "FILE [--ron]", does: &["the verdict in words, or as RON"] },
    Command {
        name: "beside",
        takes: "FILE FILE… [--csv|--markdown] [--out F.csv|.md|.txt|.svg|.png]",
        does: &[
            "what differs between two to four designs, what it does, because of what;",
            "the ending of F says the form: a table, or a picture of the curves",
        ],
    },
    Command {
        name: "aim",
        takes: "FILE --want W [--want W…] [--move LEVER[=FROM..TO[ by STEP]]…] [--hold LEVER…] [--usual | --unusual] [--seed N] [--out F.ron]",
        does: &[
            "settings that reach your goals: texture=dollops, ph<=4.3, tang=bright,",
            "sugar<=20, ready<=24h, cost<=4, fat<=10, whey<=2, vegan, gluten-free, no-cooking,",
            "only=KEY,KEY; of two bounds of one kind the tighter counts; goals are judged at the stop,",
            "and ready is when you stop; where nothing usual works, amounts go to twice their usual",
            "most; with --usual no lever goes beyond what is usual, with --unusual all go to their ends;",
            "F gets the best setting as a design",
        ],
    },
    Command {
        name: "matters",
        takes: "FILE [--spread N] [--seed S]",
        does: &["which levers move the pot, what is worth finding out,", "and which reading helps most"],
    },
    Command {
        name: "learn",
        takes: "BATCH… [--details]",
        does: &[
            "what batches teach about this kitchen's cultures, bases and warmers, what each pot taught,",
            "and how far off forecasts were before and are now; nothing is kept by this",
        ],
    },
    Command {
        name: "mishap",
        takes: "FILE --saw WORD [--saw WORD…] [--know QUESTION=ANSWER…]",
        does: &[
            "why a pot of a design or a batch went wrong: the causes, the next question, what to do, an answer to",
            "send; WORD is thin, split, sweet, no-tang, too-sour, lumpy, whey, stringy, gas, colour or smell;",
            "QUESTION=ANSWER is hours=9, warmth=36, dose=0.5, sugar=none and so on",
        ],
    },
    Command {
        name: "label",
        takes: "TEXTFILE | -",
        does: &["what a food label says, and what was inferred from it; - reads what is piped in"],
    },
    Command {
        name: "packet",
        takes: "--grams G --litres N --batch L [--scale STEP] [FILE]",
        does: &[
            "how a packet of G g for N litres is split for a pot of L litres, and how far each way",
            "may be out on a scale of that step, in g; with a design: what that does to its time",
        ],
    },
    Command {
        name: "clock",
        takes: "FILE… [--start \"DAY TIME\" | --ready \"DAY TIME\"] [--zone Z]",
        does: &[
            "the steps as clock times, from when the culture goes in or back from when it stops;",
            "several pots in one warmer are checked against each other; Z as in Europe/Paris",
        ],
    },
    Command {
        name: "recipes",
        takes: "[--find TEXT] [--folder DIR]",
        does: &[
            "the house recipes, a line each: code, name, what comes of it, tags; TEXT is looked for in",
            "names, bases, tags, words and codes; without --folder it is the folder of the window",
        ],
    },
    Command {
        name: "card",
        takes: "FILE --out F.pdf|.png|.svg|.md|.csv|.ics [--size a4|letter|a5|wall] [--version N]",
        does: &[
            "the make sheet: amounts, steps with times and signs, cautions, nutrition; a wall sheet is read",
            "from two metres; further pages of an SVG go into F-2.svg; as .ics its times for a calendar",
        ],
    },
    Command {
        name: "leaflet",
        takes: "FILE --out F.pdf|.png|.svg|.md|.csv [--size a4|letter|a5|wall] [--spoons metric|us|au|uk]",
        does: &["one page to hand out with a culture: dose, sugar, warmth, hour by hour, what goes wrong"],
    },
    Command {
        name: "lesson",
        takes: "LESSON --out F.pdf|.png|.svg|.md|.csv [--size a4|letter|a5|wall]",
        does: &["a lesson's page to hand out: question, picture, reason, room for notes"],
    },
    Command {
        name: "runsheet",
        takes: "LESSON --people N --out F.pdf|.png|.svg|.md|.csv [--at \"DAY TIME\"] [--size a4|letter|a5|wall]",
        does: &[
            "a class for N people prepared: what everybody makes, early, middle and late pots made ahead,",
            "the clock, what to buy, kit, allergens; LESSON is a file, or a lesson that ships by its name",
        ],
    },
    Command {
        name: "log",
        takes: "FILE READING… [--begin DESIGN [--at TIME]] [--logger DATA] [--table F.csv] [--csv F.csv] [--record F.pdf|.png|.svg|.md|.csv [--size a4|letter|a5|wall]] [--end]",
        does: &[
            "readings into a batch: \"21:40 4.9 38 °C bright\", \"+6 h strip 4.5\", \"whey 15 mL by Ann\"; each",
            "is told as it was understood; a time without a day is the last one that passed; --begin makes",
            "the batch of a design, in the book where no FILE is named; --logger takes a file of a logger in,",
            "--table readings, --csv writes them out, --record makes the record for those who sell, --end",
            "ends it",
        ],
    },
    Command {
        name: "pantry",
        takes: "[--check] [NAME]",
        does: &["the entries, one with all its figures, or whether they hold together"],
    },
    Command {
        name: "picture",
        takes: "FILE [FILE…] --out F.png [--view V] [--depth plain|details] [--size WxH] [--theme light|dark] [--zoom Z] [--lesson L [--step S]]",
        does: &[
            "draws the window without a display; several files stand beside each other",
            "(--over: their curves laid over each other, --tables: their tables);",
            "V is bench, beside, sweep, swap, aim, recipes, card, scale, clock, packet, warm-up, pantry, batches,",
            "mishap, class, label or making; --lesson puts a shipped lesson on the wall, at question, guess, change,",
            "curve, reason or free",
        ],
    },
    Command {
        name: "evidence",
        takes: "[CASES.ron] [--case KEY] [--csv] [--spread [POTS]] [--learn]",
        does: &[
            "the model against published cases, misses and source kinds included;",
            "with a file: against cases of your own, or of another paper, fitted and compared alike;",
            "their form is that of assets/evidence/*.ron, and README has one; --learn: what one pot of a",
            "paper teaches about its others (some minutes)",
        ],
    },
];

/// Column in which it is told what a command does.
const DOES: usize = 34;

const FOOT: &str = "
FILE is a design (*.ron), or the name of a demo design such as coconut-pot.ron.
F goes into a folder that is there, and replaces only a file of its own kind.
Exit codes: 0 done; 1 no answer; 2 bad input; 3 no window can be opened here.
Forecasts are advice, not permission: follow local codes.
";

/// Longest line of usage, and by how much the next ones are set in.
const WIDTH: usize = 96;
const INSET: usize = 8;

/// Usage on as many lines as it needs, broken before what may be left out.
fn usage(text: &str) -> String {
    let mut out = String::new();
    let mut column = 0;
    for (i, part) in text.split(" [").enumerate() {
        let part = if i == 0 { part.to_owned() } else { format!("[{part}") };
        let length = part.chars().count() + 1;
        if i > 0 && column + length > WIDTH {
            out.push_str(&format!("\n{}", " ".repeat(INSET)));
            column = INSET;
        } else if i > 0 {
            out.push(' ');
        }
        out.push_str(&part);
        column += length;
    }
    out
}

/// A line of usage with what it does: beside it where there is room, else under it.
fn line(takes: &str, does: &[&str]) -> String {
    let mut out = usage(&format!("potset {takes}"));
    let beside = out.chars().count() < DOES;
    for (i, does) in does.iter().enumerate() {
        if i == 0 && beside {
            out.push_str(&" ".repeat(DOES - out.chars().count()));
        } else {
            out.push('\n');
            out.push_str(&" ".repeat(DOES));
        }
        out.push_str(does);
    }
    out.push('\n');
    out
}

impl Command {
    fn text(&self) -> String {
        line(&format!("{} {}", self.name, self.takes), self.does)
    }
}

/// Help for the whole program.
pub fn whole() -> String {
    let mut out = "potset: what a pot of cultured yogurt will be, before it is made\n\n".to_owned();
    out.push_str(&line("[FILE]", &["opens the window"]));
    out.extend(COMMANDS.iter().map(Command::text));
    out.push_str(&line("help [COMMAND]", &["this text, or what one command takes; so does COMMAND --help"]));
    out + FOOT
}

/// Help for one command.
pub fn of(name: &str) -> Option<String> {
    COMMANDS.iter().find(|c| c.name == name).map(|c| c.text() + FOOT)
}

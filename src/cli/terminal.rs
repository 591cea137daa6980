//! The one place that prints: plain signs only, and a closed pipe or a full device is no crash.

use std::borrow::Cow;
use std::io::{self, ErrorKind, Write};

use super::Exit;
use potset_base::Note;
use potset_base::words::shortened;

/// Most characters that a message repeats of one thing, such as a name or a value that was typed.
const MOST_ECHOED: usize = 300;

/// Most characters of a mend, which may list what is known.
const MOST_MEND: usize = 1000;

/// Prints what a command has to tell, and returns how the command ended.
///
/// A reader that went away has what it wanted, so that this is no fault; a device that is full is one.
pub fn print(text: &str, exit: Exit) -> Exit {
    let mut out = io::stdout().lock();
    let printed = out.write_all(printable(text).as_bytes()).and_then(|()| out.flush());
    match printed {
        Ok(()) => exit,
        Err(e) if e.kind() == ErrorKind::BrokenPipe => exit,
        Err(e) => {
            let mend = "Make room there, or send the output to another place";
            bad(&Note::error("output", format!("The output could not be written: {e}"), mend))
        }
    }
}

/// Says what is wrong and returns the exit code for bad input.
pub fn bad(note: &Note) -> Exit {
    say(note);
    Exit::BadInput
}

/// Says a note beside the output, on one line.
pub fn say(note: &Note) {
    let short = |part: &str, most| shortened(&part.replace(['\n', '\t'], " "), most).into_owned();
    let note = Note {
        severity: note.severity,
        field: short(&note.field, MOST_ECHOED),
        title: short(&note.title, MOST_ECHOED),
        sentence: short(&note.sentence, MOST_ECHOED),
        mend: short(&note.mend, MOST_MEND),
    };
    say_line(&format!("potset: {note}"));
}

/// Says a line beside the output.
pub fn say_line(line: &str) {
    // There is nobody left to be told that it failed.
    let _ = writeln!(io::stderr().lock(), "{}", printable(line));
}

/// A text with the signs spelled out that steer a terminal, that turn the direction of writing or that nobody sees:
/// `<U+001B>`. Only line ends and tabs stay.
fn printable(text: &str) -> Cow<'_, str> {
    if !text.contains(steers) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if steers(c) {
            out.push_str(&format!("<U+{:04X}>", u32::from(c)));
        } else {
            out.push(c);
        }
    }
    Cow::Owned(out)
}

/// Whether a sign does something else than to be seen. Source: published, Unicode 15.1, categories Cc, Zl and Zp, the
/// property `Bidi_Control`, and the invisible ones of category Cf that no word needs.
fn steers(c: char) -> bool {
    match c {
        '\n' | '\t' => false,
        '\u{61C}' | '\u{200B}' | '\u{200E}' | '\u{200F}' | '\u{2028}'..='\u{202E}' => true,
        '\u{2060}'..='\u{206F}' | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFB}' | '\u{E0000}'..='\u{E007F}' => true,
        _ => c.is_control(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_steers_a_terminal_is_spelled_out() {
        for (text, shown) in [
            ("a\u{1b}[31mred", "a<U+001B>[31mred"),
            ("\u{9b}2J\r", "<U+009B>2J<U+000D>"),
            ("pot\u{202e}nor\u{2066}", "pot<U+202E>nor<U+2066>"),
            ("a\u{200b}b\u{feff}\u{e0041}", "a<U+200B>b<U+FEFF><U+E0041>"),
            ("\u{7f}\0", "<U+007F><U+0000>"),
        ] {
            assert_eq!(printable(text), shown);
        }
    }

    #[test]
    fn every_script_stays_as_it_is() {
        for text in ["Crème 40\u{a0}°C − 2,5 “x”\n\tnext", "ヨーグルト", "דלי", "خبز\u{200d}", "👩\u{200d}🍳"]
        {
            assert!(matches!(printable(text), Cow::Borrowed(_)), "{text}");
        }
    }
}

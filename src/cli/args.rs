//! Arguments: options with values, flags, one or more files; every mistake is named.

use std::ffi::{OsStr, OsString};
use std::path::Path;

use potset_base::{Note, number};

/// The option whose value is a file's name, which need not be text.
const FILE_OPTION: &str = "out";

/// Arguments of one command.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Args {
    files: Vec<OsString>,
    options: Vec<(String, OsString)>,
    flags: Vec<String>,
}

impl Args {
    /// Reads arguments. `options` take a value, `flags` do not; anything else with a dash is refused.
    ///
    /// # Errors
    /// A note that names the argument and what is known instead.
    pub fn read(arguments: &[OsString], options: &[&str], flags: &[&str]) -> Result<Self, Note> {
        let mut out = Self::default();
        let mut rest = arguments.iter();
        while let Some(argument) = rest.next() {
            if !argument.as_encoded_bytes().starts_with(b"--") {
                out.files.push(argument.clone());
                continue;
            }
            let text = argument.to_str().ok_or_else(|| no_text(argument))?;
            let name = text.strip_prefix("--").unwrap_or(text);
            let (name, inline) = name.split_once('=').map_or((name, None), |(n, v)| (n, Some(v.into())));
            if flags.contains(&name) {
                out.flags.push(name.to_owned());
            } else if options.contains(&name) {
                let value = inline.or_else(|| rest.next().cloned()).ok_or_else(|| {
                    Note::error(format!("--{name}"), "The option has no value", "Give its value after it")
                })?;
                if name != FILE_OPTION && value.to_str().is_none() {
                    return Err(no_text(&value));
                }
                out.options.push((name.to_owned(), value));
            } else {
                let known: Vec<String> = options.iter().chain(flags).map(|n| format!("--{n}")).collect();
                return Err(Note::error(
                    text,
                    "There is no such option",
                    format!("Known here: {}", known.join(", ")),
                ));
            }
        }
        Ok(out)
    }

    /// The same where one of the options may stand without its value, which is then `value`.
    ///
    /// # Errors
    /// As [`Args::read`].
    pub fn read_with(
        arguments: &[OsString],
        options: &[&str],
        flags: &[&str],
        (name, value): (&str, usize),
    ) -> Result<Self, Note> {
        let bare = format!("--{name}");
        let mut all = arguments.to_vec();
        for i in 0..all.len() {
            let next = all.get(i + 1).and_then(|next| next.as_encoded_bytes().first());
            if all[i] == *bare && !next.is_some_and(u8::is_ascii_digit) {
                all[i] = format!("{bare}={value}").into();
            }
        }
        Self::read(&all, options, flags)
    }

    /// The one file.
    ///
    /// # Errors
    /// A note if there is none, or more than one.
    pub fn file(&self) -> Result<&OsStr, Note> {
        match self.files.as_slice() {
            [one] => Ok(one),
            [] => Err(Note::error(
                "FILE",
                "No design was named",
                "Give a design file, for example coconut-pot.ron",
            )),
            [_, second, ..] => Err(Note::error(
                second.to_string_lossy(),
                "One design at a time here",
                "Leave the others out",
            )),
        }
    }

    /// All files.
    pub fn files(&self) -> &[OsString] {
        &self.files
    }

    /// All that is no option, as one name.
    pub fn words(&self) -> Option<String> {
        (!self.files.is_empty()).then(|| self.files.join(OsStr::new(" ")).to_string_lossy().into_owned())
    }

    /// Refuses files, for a command that takes none.
    ///
    /// # Errors
    /// A note that names the first one.
    pub fn no_files(&self) -> Result<(), Note> {
        self.files.first().map_or(Ok(()), |file| {
            Err(Note::error(file.to_string_lossy(), "This command takes no file", "Leave it out"))
        })
    }

    /// An option's text.
    pub fn text(&self, name: &str) -> Option<&str> {
        self.options.iter().rev().find(|(n, _)| n == name).and_then(|(_, v)| v.to_str())
    }

    /// The file that the command writes.
    pub fn out(&self) -> Option<&Path> {
        self.options.iter().rev().find(|(n, _)| n == FILE_OPTION).map(|(_, v)| Path::new(v))
    }

    /// All texts of an option that may be given several times, in their order.
    pub fn texts(&self, name: &str) -> impl Iterator<Item = &str> {
        self.options.iter().filter(move |(n, _)| n == name).filter_map(|(_, v)| v.to_str())
    }

    /// An option's number, within a range.
    ///
    /// # Errors
    /// A note that names the option and its range.
    pub fn number(&self, name: &str, least: f64, most: f64) -> Result<Option<f64>, Note> {
        let Some(text) = self.text(name) else { return Ok(None) };
        number::parse(text).filter(|v| (least..=most).contains(v)).map(Some).ok_or_else(|| {
            Note::error(
                format!("--{name}"),
                format!("“{text}” is not a usable number"),
                format!("Give {} to {}", number::plain(least), number::plain(most)),
            )
        })
    }

    /// An option's whole number, within a range.
    ///
    /// # Errors
    /// A note that names the option and its range.
    pub fn whole(&self, name: &str, least: usize, most: usize) -> Result<Option<usize>, Note> {
        let Some(text) = self.text(name) else { return Ok(None) };
        text.parse().ok().filter(|v| (least..=most).contains(v)).map(Some).ok_or_else(|| {
            Note::error(
                format!("--{name}"),
                format!("“{text}” is not a usable whole number"),
                format!("Give {least} to {most}"),
            )
        })
    }

    /// Whether a flag was given.
    pub fn flag(&self, name: &str) -> bool {
        self.flags.iter().any(|f| f == name)
    }
}

fn no_text(argument: &OsStr) -> Note {
    Note::error(
        argument.to_string_lossy(),
        "This is not text in UTF-8",
        format!("Type the text anew; the name of a file stands after --{FILE_OPTION} and a space"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Args, Note> {
        let words: Vec<OsString> = text.split(' ').map(OsString::from).collect();
        Args::read(&words, &["every", "out"], &["ron"])
    }

    #[test]
    fn options_flags_and_files() {
        let args = read("a.ron --every 30 --ron --out=b.csv").unwrap();
        assert_eq!(args.file().unwrap(), "a.ron");
        assert_eq!(args.number("every", 1.0, 600.0).unwrap(), Some(30.0));
        assert_eq!(args.out(), Some(Path::new("b.csv")));
        assert!(args.flag("ron"));
    }

    #[test]
    fn mistakes_are_named() {
        assert!(read("a.ron --evry 30").unwrap_err().mend.contains("--every"));
        assert!(read("a.ron --every").unwrap_err().field.contains("every"));
        assert!(read("a.ron --every x").unwrap().number("every", 1.0, 9.0).is_err());
        assert!(read("a.ron b.ron").unwrap().file().is_err());
    }
}

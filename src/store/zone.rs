//! The zone of this machine's clock, by its name.

use std::fs;
use std::path::{MAIN_SEPARATOR_STR, Path, PathBuf};

/// The name of the zone, such as "Europe/Paris": as the environment says, else as the system keeps it. Nothing where neither
/// does, as on a system that calls zones otherwise.
pub fn name() -> Option<String> {
    let named = std::env::var("TZ").ok().and_then(|tz| zone_in(tz.trim_start_matches(':')));
    let linked = || fs::read_link(system("localtime")).ok().and_then(|to| zone_in(to.to_str()?));
    let written = || fs::read_to_string(system("timezone")).ok().and_then(|name| zone_in(name.trim()));
    named.or_else(linked).or_else(written)
}

/// A file among the settings of the system.
fn system(name: &str) -> PathBuf {
    Path::new(MAIN_SEPARATOR_STR).join("etc").join(name)
}

/// The name in a path or a text: what stands behind the folder of the zones, if that is in it.
fn zone_in(text: &str) -> Option<String> {
    let name = text.rsplit_once("zoneinfo/").map_or(text, |(_, name)| name);
    let clean = !name.is_empty() && !name.starts_with('/') && !name.contains(char::is_whitespace);
    clean.then(|| name.to_owned())
}

#[cfg(test)]
mod tests {
    use super::zone_in;

    #[test]
    fn the_name_stands_behind_the_folder() {
        assert_eq!(zone_in("/usr/share/zoneinfo/Europe/Paris").as_deref(), Some("Europe/Paris"));
        assert_eq!(zone_in("Etc/UTC").as_deref(), Some("Etc/UTC"));
        assert_eq!(zone_in("/etc/somewhere"), None);
        assert_eq!(zone_in(""), None);
    }
}

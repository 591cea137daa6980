//! Broken files of loggers: what must come of each.

//! Files of loggers.

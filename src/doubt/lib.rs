//! Many possible pots: ranges, ready times, what matters.

pub mod influence;
pub mod kept;
pub mod matters;
pub mod ready_times;
pub mod spread;
pub mod surer;

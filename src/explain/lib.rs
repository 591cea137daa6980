//! Where every value on the screen comes from: by which laws, and on which cited numbers it rests.

pub mod basis;
pub mod laboratory;
mod law;
pub mod reading;

pub use law::Law;
pub use reading::Reading;

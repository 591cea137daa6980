//! Every sentence that a person reads about a result: studies return values, and here they are said.

pub mod advice;
pub mod aim;
pub mod answer;
pub mod batch;
pub mod beside;
pub mod card;
pub mod cautions;
pub mod clock;
pub mod explain;
pub mod glossary;
pub mod hygiene;
pub mod labels;
pub mod leaflet;
pub mod matters;
pub mod mends;
pub mod nutrition;
pub mod packet;
pub mod ready;
pub mod recipes;
pub mod scale;
pub mod spread;
pub mod swap;
pub mod sweep;
pub mod validity;
pub mod warnings;
pub mod why;

//! Published and own measurements against the model.

pub mod evidence;

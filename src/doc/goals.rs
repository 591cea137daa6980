//! What the maker wants of the pot.

use serde::{Deserialize, Serialize};

use potset_base::words::{TangWord, TextureWord};

/// Goals; each may be left open.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Goals {
    /// Chilled texture, from and to.
    pub texture: Option<(TextureWord, TextureWord)>,
    /// Tang, from and to.
    pub tang: Option<(TangWord, TangWord)>,
    /// Highest pH at which the pot may be called done; empty: the usual release pH.
    pub ph_at_most: Option<f64>,
    /// g/L of all sugar left.
    pub sugar_left_at_most: Option<f64>,
    /// % whey on standing.
    pub whey_at_most: Option<f64>,
    /// % of the pot that may be thin below.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thin_layer_at_most: Option<f64>,
    /// For the very young, the old, the pregnant and the ill: a lower release pH.
    #[serde(default)]
    pub frail_eaters: bool,
}

impl Default for Goals {
    fn default() -> Self {
        Self {
            texture: Some((TextureWord::Dollops, TextureWord::Stands)),
            tang: Some((TangWord::Bright, TangWord::Sharp)),
            ph_at_most: None,
            sugar_left_at_most: None,
            whey_at_most: Some(3.0),
            thin_layer_at_most: None,
            frail_eaters: false,
        }
    }
}

//! The colours of the light theme that pictures handed out share with the screen, as 0xRRGGBB. The screen's own table says
//! where they come from and tests their contrast.

pub const SHEET: u32 = 0x00fb_f8f2;
pub const CARD: u32 = 0x00ff_fdf9;
pub const RULE: u32 = 0x00e6_decf;
pub const RAIL: u32 = 0x00dc_d3c3;
pub const MARK: u32 = 0x0075_695c;
pub const INK: u32 = 0x002a_2420;
pub const INK_SOFT: u32 = 0x006d_6154;
pub const READY: u32 = 0x00cf_e4c0;
pub const READY_EDGE: u32 = 0x004f_5a44;
pub const WARN: u32 = 0x00a3_4a06;
pub const STOP_LINE: u32 = 0x000b_6e6e;
/// What is printed: black on white, and one grey that is still read on a copy.
pub const PAPER: u32 = 0x00ff_ffff;
pub const PRINT: u32 = 0x0000_0000;
pub const PRINT_SOFT: u32 = 0x005e_5e5e;
/// Curves: the line, and the same hue as text.
pub const PH: (u32, u32) = (0x0000_72b2, 0x0000_6dab);
pub const ACID: (u32, u32) = (0x009d_4e7b, 0x009d_4e7b);
pub const SUGAR: (u32, u32) = (0x00b2_7a03, 0x008c_5f01);
pub const TEXTURE: (u32, u32) = (0x0000_976e, 0x0001_7756);
pub const WARMTH: (u32, u32) = (0x00d5_5e00, 0x00ae_4b00);

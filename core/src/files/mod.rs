//! Sketches and performances in and out of the program: links, text, sound
//! files and other people's formats.

mod base64;
mod bring;
mod choice;
mod columns;
mod fields;
mod lesson_link;
mod lesson_wire;
mod link;
mod midi;
mod musicxml;
mod patch;
mod pitches;
mod qr;
mod squeeze;
mod stages;
mod text;
mod tuning;
mod variants;
mod wav;
mod wire;

pub use bring::{
    BringError, BringRemark, Brought, BroughtPart, FileKind, InFile, MAX_FILE, MAX_NOTES,
    OtherKind, PartName, open_file, read_file,
};
pub use lesson_link::{Linked, encode_commented, encode_hand_in, encode_set, open, pasted, plain};
pub use link::{LinkError, MAX_LINK, decode, encode};
pub use midi::{MidiForm, midi};
pub use musicxml::{musicxml, mxl};
pub use qr::{QrError, qr_svg};
pub use text::{ReadText, SheetRemark, SheetTrouble, from_text, to_text};
pub use wav::{Depth, Wav};

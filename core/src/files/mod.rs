//! What leaves the program: sound files.

mod wav;

pub use wav::Wav;

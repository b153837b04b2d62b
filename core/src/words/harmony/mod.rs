//! Harmony in sentences: why a chord is there, and what is odd about given figures.

mod figures;
mod reasons;
mod remarks;

pub use figures::figures_spoken;
pub use reasons::reason;
pub use remarks::{figure_trouble, harmony_remark, text_trouble};

use crate::pitch::Degree;

/// "1st", "2nd" ... "7th".
pub(super) fn ordinal(degree: Degree) -> &'static str {
    ["1st", "2nd", "3rd", "4th", "5th", "6th", "7th"][usize::from(degree.number() - 1) % 7]
}

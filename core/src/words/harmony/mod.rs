//! Harmony in sentences: why a chord is there, and what is odd about given figures.

mod chords;
mod figures;
mod moves;
mod patterns;
mod reasons;
mod remarks;

pub(super) use chords::degree_name;
pub use figures::{all_figures_shown, figures_shown, figures_spoken};
pub use patterns::pattern;
pub use reasons::reason;
pub use remarks::{figure_trouble, harmony_remark, text_trouble};

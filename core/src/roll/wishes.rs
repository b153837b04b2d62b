//! What a person decides about the roll: for the piece, and for a chord where it
//! differs from the piece.

/// How the chords of the piece are rolled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RollWishes {
    /// Times up and down per chord, in the range [1, 4]; 0 rolls up once only.
    pub times: u8,
    /// Speed against the usual, in percent, in the range [25, 400].
    pub speed: u16,
    /// Seed of the small freedoms of time and ornament: another seed is another take.
    pub seed: u32,
    /// How strokes are given to the chords.
    pub plan: StrokePlan,
    /// How much is added between the chord's notes, in percent, in the range
    /// [0, 100]; 0 plays the handfuls as they stand.
    pub spice: u8,
    /// How long the fingers stay on what they struck.
    pub held: Held,
}

impl Default for RollWishes {
    fn default() -> RollWishes {
        RollWishes {
            times: 1,
            speed: 100,
            seed: 1,
            plan: StrokePlan::Speech,
            spice: 35,
            held: Held::Collected,
        }
    }
}

/// How long the fingers stay on what they struck.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Held {
    /// Collected under the hand until the chord changes; the next chord is struck
    /// anew.
    #[default]
    Collected,
    /// Collected; and a note that the hand finds again in the next chord stays down
    /// and is not struck again until a stroke comes back to it. The bass always is.
    Kept,
    /// Let go as the hand strikes its next.
    LetGo,
}

impl Held {
    /// All ways, in the order they are offered.
    pub const ALL: [Held; 3] = [Held::Collected, Held::Kept, Held::LetGo];
}

/// How strokes are given to the chords of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StrokePlan {
    /// Every chord alike.
    Even(Stroke),
    /// By what each chord says: the opening's bass alone and then the handful,
    /// dense at dominants and bold chords, plain elsewhere, where what is expected
    /// may go up and down once less.
    Speech,
    /// Another stroke for each chord, drawn by the seed.
    Varied,
}

/// The order in which a handful's notes follow one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Stroke {
    /// Swept from the bass up, and down again.
    Sweep,
    /// The left hand up, then the right from its top down; and back again.
    HandAfterHand,
    /// The bass, then from the middle outwards; and back inwards.
    InsideOut,
    /// In broken thirds: every step up goes two on and one back.
    BrokenThirds,
    /// Turning back before the top, and only then to the top.
    TurningBack,
    /// The bass struck again before every sweep up.
    RepeatedBass,
    /// The bass alone, a breath, then the rest.
    BassAlone,
    /// Along a line drawn by hand: eight heights in turn, 0 the bass and 100 the
    /// soprano; more counts as 100.
    Drawn([u8; 8]),
}

/// How one chord is rolled, where it differs from the piece.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct ChordStroke {
    /// Times up and down, in the range [0, 4]; `None` follows the piece.
    pub times: Option<u8>,
    /// The stroke; `None` follows the piece's plan.
    pub stroke: Option<Stroke>,
    /// Spice in percent, in the range [0, 100]; `None` follows the piece.
    pub spice: Option<u8>,
    /// How long the chord is dwelt on, in percent of what its harmony asks for, in
    /// the range [0, 400]; `None` is 100.
    pub dwell: Option<u16>,
}

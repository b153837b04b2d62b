//! One vibrating string as a digital waveguide: a loop one period long with a
//! loss filter, two all-pass stages for stiffness and one for exact tuning.
//!
//! After Jaffe and Smith, "Extensions of the Karplus-Strong Plucked-String
//! Algorithm", *Computer Music Journal* 7/2 (1983). The loop's whole phase delay
//! at the fundamental, loss filter and stiffness included, is made equal to the
//! period, so the pitch is that of the tuning table.

use std::f64::consts::{PI, TAU};

/// What a string is made to do.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scaling {
    /// Fundamental, in hertz.
    pub(super) hertz: f64,
    /// Time for the fundamental to fall by 60 dB, in seconds.
    pub(super) ring: f64,
    /// The same for partials near [`HIGH`] hertz; shorter.
    pub(super) ring_high: f64,
    /// Stiffness: partial `k` lies at `k·f·√(1 + B·k²)`.
    pub(super) stiffness: f64,
    /// Time for the damped string to fall by 60 dB, in seconds.
    pub(super) damped: f64,
}

/// Where the faster decay of high partials is stated, in hertz.
pub(super) const HIGH: f64 = 4500.0;

/// A level below which a string counts as silent: -114 dB of full scale.
const SILENT: f32 = 2e-6;

/// Longest run of samples computed at a time.
pub(super) const CHUNK: usize = 128;

/// Fewest samples between two moves of what a string keeps.
const ROOM: usize = 1024;

/// Keeps the filters clear of denormal numbers, which some processors compute slowly.
const CLEAR: f32 = 1e-18;

/// A first-order all-pass filter.
#[derive(Clone, Copy, Debug, Default)]
struct AllPass {
    a: f32,
    x1: f32,
    y1: f32,
}

/// Phase delay in samples of an all-pass of coefficient `a` at angle `w`.
fn all_pass_delay(a: f64, w: f64) -> f64 {
    1.0 - 2.0 / w * libm::atan2(a * libm::sin(w), 1.0 + a * libm::cos(w))
}

/// The pole of a one-pole low-pass whose gain at the angle `high` is `ratio` times that
/// at the angle `low`; 0 where no loss is asked for.
fn loss_pole(ratio: f64, low: f64, high: f64) -> f64 {
    let r = ratio * ratio;
    if r >= 1.0 {
        return 0.0;
    }
    let b = (r * libm::cos(high) - libm::cos(low)) / (r - 1.0);
    b - (b * b - 1.0).max(0.0).sqrt()
}

/// The coefficient of two all-passes that make a string of this period, in samples, as
/// stiff as asked: the root of d·(d² - 1) = 12·B·P³ / (4π)², by Newton's method.
fn stiff_coefficient(period: f64, stiffness: f64) -> f64 {
    let product = 12.0 * period * period * period * stiffness / (16.0 * PI * PI);
    let mut delay = 1.0 + product / 2.0;
    for _ in 0..40 {
        let error = delay * (delay * delay - 1.0) - product;
        delay -= error / (3.0 * delay * delay - 1.0);
    }
    ((1.0 - delay) / (1.0 + delay)).clamp(-0.9, 0.0)
}

/// Where the damper is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Damper {
    On,
    Off,
}

/// A string.
#[derive(Clone, Debug)]
pub(super) struct Strung {
    damper: Damper,
    /// What ran round it lately, oldest first, and room for more to come; when that is
    /// used up, the last `kept` samples move to the front.
    past: Vec<f32>,
    write: usize,
    kept: usize,
    delay: usize,
    ripple: f32,
    ripple_back: usize,
    pole: f32,
    loss: f32,
    free_loss: f32,
    damped_loss: f32,
    felt: f32,
    fade: u32,
    fade_length: u32,
    fade_from: (f32, f32),
    fade_to: (f32, f32),
    low: f32,
    stiff: [AllPass; 2],
    stages: usize,
    tune: AllPass,
    feed: Vec<f32>,
    fed: usize,
    quiet: usize,
    patience: usize,
}

impl Strung {
    /// A silent string. `rate` in samples per second; a string too high for it is
    /// tuned as high as it allows.
    ///
    /// Allocates: the loop, one period long.
    pub(super) fn new(scaling: &Scaling, rate: f64) -> Strung {
        let hertz = scaling.hertz.min(0.4 * rate);
        let w = TAU * hertz / rate;
        let period = rate / hertz;
        let high = HIGH.max(3.0 * hertz).min(0.4 * rate);
        let w_high = TAU * high / rate;

        // The loss filter g·(1-p)/(1-p·z⁻¹) meets the two wanted losses per turn.
        let turn = |seconds: f64| libm::pow(10.0, -3.0 / (hertz * seconds));
        let (low_gain, high_gain) = (turn(scaling.ring), turn(scaling.ring_high));
        let pole = loss_pole(high_gain / low_gain, w, w_high);
        let magnitude =
            (1.0 - pole) / (1.0 - 2.0 * pole * libm::cos(w) + pole * pole).max(1e-12).sqrt();
        let loss = |gain: f64| (gain / magnitude).min(0.999_99) * (1.0 - pole);
        let pole_delay = libm::atan2(pole * libm::sin(w), 1.0 - pole * libm::cos(w)) / w;

        // Stiffness by two all-passes whose delay falls towards high frequencies.
        let stages = if period > 24.0 { 2 } else { 0 };
        let stiff = if stages > 0 { stiff_coefficient(period, scaling.stiffness) } else { 0.0 };
        // The coefficient that is used is the rounded one; tune with that.
        let stiff = stiff as f32;

        // A faint echo within the turn lets neighbouring partials decay unequally,
        // by up to a third, as a real string's do; it is weaker than the loss, so
        // the loop stays stable.
        let ripple = if stages > 0 { (0.3 * (1.0 - low_gain)).min(0.006) as f32 } else { 0.0 };
        let ripple_back = libm::floor(0.43 * period);
        let echo = f64::from(ripple);
        let ripple_delay =
            libm::atan2(echo * libm::sin(w * ripple_back), 1.0 + echo * libm::cos(w * ripple_back))
                / w;

        let rest = period
            - 1.0
            - pole_delay
            - ripple_delay
            - stages as f64 * all_pass_delay(f64::from(stiff), w);
        let delay = libm::floor(rest - 0.6).max(1.0);
        let fraction = (rest - delay).max(0.05);
        let tune = libm::sin((1.0 - fraction) * w / 2.0) / libm::sin((1.0 + fraction) * w / 2.0);

        let delay = delay as usize;
        let free_loss = loss(low_gain) as f32;
        let fade_length = (0.008 * rate) as u32;
        let patience = period as usize * 2 + 256;
        // The loop, its echo, and the two samples before them that the felt asks for.
        let kept = delay + ripple_back as usize + 2;
        Strung {
            damper: Damper::On,
            past: vec![0.0; kept + kept.max(ROOM)],
            write: kept,
            kept,
            delay,
            ripple,
            ripple_back: ripple_back as usize,
            pole: pole as f32,
            loss: free_loss,
            free_loss,
            damped_loss: loss(turn(scaling.damped)) as f32,
            felt: 0.0,
            fade: 0,
            fade_length: fade_length.max(1),
            fade_from: (free_loss, 0.0),
            fade_to: (free_loss, 0.0),
            low: 0.0,
            stiff: [AllPass { a: stiff, ..AllPass::default() }; 2],
            stages,
            tune: AllPass { a: tune as f32, ..AllPass::default() },
            feed: Vec::new(),
            fed: 0,
            quiet: patience,
            patience,
        }
    }

    /// Whether anything still sounds or is about to.
    pub(super) fn sounds(&self) -> bool {
        self.quiet < self.patience
    }

    /// Sets the string free and adds a pulse to what runs round it.
    pub(super) fn pluck(&mut self, pulse: &[f32]) {
        self.feed.drain(..self.fed);
        self.fed = 0;
        if self.feed.len() < pulse.len() {
            self.feed.resize(pulse.len(), 0.0);
        }
        for (old, new) in self.feed.iter_mut().zip(pulse) {
            *old += new;
        }
        self.quiet = 0;
        self.damper = Damper::Off;
        self.fade_towards(self.free_loss, 0.0);
    }

    /// Lets the damper fall.
    pub(super) fn damp(&mut self) {
        self.damper = Damper::On;
        self.fade_towards(self.damped_loss, 0.04);
    }

    fn fade_towards(&mut self, loss: f32, felt: f32) {
        self.fade_from = (self.loss, self.felt);
        self.fade_to = (loss, felt);
        self.fade = self.fade_length;
    }

    /// The longest run of samples it can be computed for at a time: no longer than
    /// the loop, so that a run never feeds itself.
    pub(super) fn longest(&self) -> usize {
        CHUNK.min(self.delay)
    }

    /// Whole samples of its loop.
    pub(super) fn period(&self) -> usize {
        self.delay
    }

    /// All-pass stages for stiffness: 2, or 0 where the string is too short for any.
    pub(super) fn stages(&self) -> usize {
        self.stages
    }

    /// Whether the damper is off it, so that other strings can set it going.
    pub(super) fn is_free(&self) -> bool {
        self.damper == Damper::Off
    }

    /// The first half of a turn: what comes back round the loop, softened, into a lane.
    /// The loss at every frequency alike, and the felt: a symmetrical filter, so that
    /// damping does not bend the pitch.
    pub(super) fn come_back(&mut self, beside: &mut [[f32; LANES]], lane: usize) {
        let count = beside.len();
        self.make_room(count);
        let from = self.write - self.delay - 2;
        let back = self.past.get(from..from + count + 2).unwrap_or_default();
        let echo = from - self.ripple_back;
        let echo = self.past.get(echo..echo + count + 2).unwrap_or_default();
        let ripple = self.ripple;
        let came = |(x, echo): (&f32, &f32)| x + ripple * echo;
        if self.fade == 0 && self.felt == 0.0 {
            // The sample before, so that the felt has one on either side.
            let before = back.iter().zip(echo).skip(1);
            for (y, x) in beside.iter_mut().zip(before) {
                y[lane] = self.loss * came(x);
            }
            return;
        }
        let (mut first, mut second) = (0.0, 0.0);
        for (i, x) in back.iter().zip(echo).enumerate() {
            let x = came(x);
            if let Some(y) = i.checked_sub(2).and_then(|at| beside.get_mut(at)) {
                if self.fade > 0 {
                    self.fade -= 1;
                    let t = self.fade as f32 / self.fade_length as f32;
                    self.loss = self.fade_to.0 + t * (self.fade_from.0 - self.fade_to.0);
                    self.felt = self.fade_to.1 + t * (self.fade_from.1 - self.fade_to.1);
                }
                y[lane] = self.loss * (second + self.felt * (x - 2.0 * second + first));
            }
            (first, second) = (second, x);
        }
    }

    /// The second half of a turn, after [`filter`]: the pulse joins, and all of it
    /// goes round again.
    pub(super) fn go_on(&mut self, chunk: &mut [f32]) {
        let waiting = self.fed < self.feed.len();
        if let Some(feed) = self.feed.get(self.fed..) {
            for (y, pulse) in chunk.iter_mut().zip(feed) {
                *y += pulse;
            }
            self.fed = (self.fed + chunk.len()).min(self.feed.len());
        }
        if let Some(ahead) = self.past.get_mut(self.write..self.write + chunk.len()) {
            ahead.copy_from_slice(chunk);
            self.write += chunk.len();
        }
        let peak = chunk.iter().fold(0.0_f32, |peak, y| peak.max(y.abs()));
        self.quiet = if peak > SILENT || waiting { 0 } else { self.quiet + chunk.len() };
        if !self.sounds() {
            self.hush();
        }
    }

    /// Makes room for some samples after what is kept.
    fn make_room(&mut self, count: usize) {
        if self.write + count > self.past.len() {
            self.past.copy_within(self.write - self.kept..self.write, 0);
            self.write = self.kept;
        }
    }

    /// Forgets what is left below hearing.
    fn hush(&mut self) {
        self.past.fill(0.0);
        self.low = 0.0;
        for stage in self.stiff.iter_mut().chain([&mut self.tune]) {
            stage.x1 = 0.0;
            stage.y1 = 0.0;
        }
        self.feed.clear();
        self.fed = 0;
    }
}

/// Strings computed side by side. Each waits for its own last sample, so four
/// together take hardly longer than one.
pub(super) const LANES: usize = 4;

/// The loss that grows with frequency, the stiffness and the tuning of up to
/// [`LANES`] strings with equally many stages.
pub(super) fn filter(strings: [Option<&mut Strung>; LANES], beside: &mut [[f32; LANES]]) {
    if strings.iter().flatten().all(|string| string.stages == 0) {
        lanes::<0>(strings, beside);
    } else {
        lanes::<2>(strings, beside);
    }
}

/// Four all-passes side by side.
#[derive(Clone, Copy, Default)]
struct AllPasses {
    a: [f32; LANES],
    x1: [f32; LANES],
    y1: [f32; LANES],
}

impl AllPasses {
    fn of(lanes: [AllPass; LANES]) -> AllPasses {
        AllPasses { a: lanes.map(|it| it.a), x1: lanes.map(|it| it.x1), y1: lanes.map(|it| it.y1) }
    }

    fn lane(&self, i: usize) -> AllPass {
        AllPass { a: self.a[i], x1: self.x1[i], y1: self.y1[i] }
    }

    fn pass(&mut self, x: [f32; LANES]) -> [f32; LANES] {
        let mut y = [0.0; LANES];
        for i in 0..LANES {
            y[i] = (self.a[i] * x[i] + self.x1[i]) - self.a[i] * self.y1[i];
        }
        self.x1 = x;
        self.y1 = y;
        y
    }
}

fn lanes<const STAGES: usize>(strings: [Option<&mut Strung>; LANES], beside: &mut [[f32; LANES]]) {
    let of = |get: fn(&Strung) -> AllPass| {
        AllPasses::of(std::array::from_fn(|i| strings[i].as_deref().map(get).unwrap_or_default()))
    };
    let [mut first, mut second] = [of(|it| it.stiff[0]), of(|it| it.stiff[1])];
    let mut tune = of(|it| it.tune);
    let number = |get: fn(&Strung) -> f32| -> [f32; LANES] {
        std::array::from_fn(|i| strings[i].as_deref().map_or(0.0, get))
    };
    let pole = number(|it| it.pole);
    let mut low = number(|it| it.low);
    for x in beside.iter_mut() {
        for i in 0..LANES {
            low[i] = (x[i] + CLEAR) + pole[i] * low[i];
        }
        let stiff = if STAGES == 0 { low } else { second.pass(first.pass(low)) };
        *x = tune.pass(stiff);
    }
    for (i, string) in strings.into_iter().enumerate() {
        let Some(string) = string else { continue };
        string.low = low[i];
        string.stiff = [first.lane(i), second.lane(i)];
        string.tune = tune.lane(i);
    }
}

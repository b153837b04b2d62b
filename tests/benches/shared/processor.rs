//! The processor's time as what a bench measures.

use criterion::measurement::{Measurement, ValueFormatter, WallTime};
use std::time::{Duration, Instant};

/// The processor time of this process where the system tells it (Linux), so that a
/// busy machine does not count against the instrument; otherwise the clock on the wall.
pub(crate) struct ProcessorTime(Instant);

impl ProcessorTime {
    /// Begins to count.
    pub(crate) fn begin() -> ProcessorTime {
        ProcessorTime(Instant::now())
    }

    fn now(&self) -> Duration {
        let told = std::fs::read_to_string("/proc/self/schedstat").ok();
        let nanos = told.and_then(|text| text.split_whitespace().next()?.parse().ok());
        nanos.map_or_else(|| self.0.elapsed(), Duration::from_nanos)
    }
}

impl Measurement for ProcessorTime {
    type Intermediate = Duration;
    type Value = Duration;

    fn start(&self) -> Duration {
        self.now()
    }

    fn end(&self, start: Duration) -> Duration {
        // The system counts in steps; nothing takes no time at all.
        self.now().saturating_sub(start).max(Duration::from_nanos(1))
    }

    fn add(&self, one: &Duration, other: &Duration) -> Duration {
        *one + *other
    }

    fn zero(&self) -> Duration {
        Duration::ZERO
    }

    fn to_f64(&self, value: &Duration) -> f64 {
        WallTime.to_f64(value)
    }

    fn formatter(&self) -> &dyn ValueFormatter {
        WallTime.formatter()
    }
}

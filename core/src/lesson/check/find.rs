//! "Find the planted faults": every fault of the given outer voices pointed at,
//! and nothing else.
//!
//! Marks and faults are matched so that as many as possible meet (augmenting
//! paths), because one chord may take part in several faults. A mark on what is
//! only a caution is neither asked for nor wrong.

use super::{Begun, Case, fault};
use crate::frame::{Fault, Severity};
use crate::lesson::answer::Found;
use crate::lesson::ask::Naming;
use crate::lesson::report::{Finding, FindingKind};
use crate::reading::read;

pub(super) fn find(case: &Case<'_>, naming: Naming) -> (Begun, Vec<Finding>) {
    let marks = &case.answer.found;
    let reading = read(&case.exercise.sketch);
    let all = &reading.frame.faults;
    let of = |severity| all.iter().filter(move |it| it.severity == severity).collect::<Vec<_>>();
    let (faults, cautions) = (of(Severity::Fault), of(Severity::Caution));
    let by_rule = |mark: &Found, fault: &Fault| {
        there(mark, fault) && (naming == Naming::Place || mark.rule == Some(fault.rule))
    };
    let all_marks: Vec<&Found> = marks.iter().collect();
    let met = matching(&all_marks, &faults, by_rule);
    let left_marks: Vec<&Found> = unmatched(&all_marks, |m| met.iter().any(|&(a, _)| a == m));
    let left_faults: Vec<&Fault> = unmatched(&faults, |f| met.iter().any(|&(_, b)| b == f));
    // Marks that name a caution stand aside before misnamed faults are sought.
    let aside = matching(&left_marks, &cautions, by_rule);
    let left_marks: Vec<&Found> = unmatched(&left_marks, |m| aside.iter().any(|&(a, _)| a == m));
    let misnamed = matching(&left_marks, &left_faults, there);
    let mut found = Vec::new();
    for &(m, f) in &misnamed {
        if let (Some(mark), Some(planted)) = (left_marks.get(m), left_faults.get(f)) {
            let kind = FindingKind::Misnamed { found: **mark, fault: (*planted).clone() };
            found.push(fault(Some((planted.from, planted.to)), kind));
        }
    }
    for mark in unmatched(&left_marks, |m| misnamed.iter().any(|&(a, _)| a == m)) {
        found.push(fault(Some((mark.chord, mark.chord)), FindingKind::NoFaultThere(*mark)));
    }
    for planted in unmatched(&left_faults, |f| misnamed.iter().any(|&(_, b)| b == f)) {
        let place = Some((planted.from, planted.to));
        found.push(fault(place, FindingKind::Missed(planted.clone())));
    }
    (Begun::when(!marks.is_empty()), found)
}

fn there(mark: &Found, fault: &Fault) -> bool {
    fault.from <= mark.chord && mark.chord <= fault.to
}

fn unmatched<T: Copy>(all: &[T], matched: impl Fn(usize) -> bool) -> Vec<T> {
    let left = all.iter().enumerate().filter(|(i, _)| !matched(*i));
    left.map(|(_, it)| *it).collect()
}

/// The most pairs that fit, as indices of marks and faults.
fn matching(
    marks: &[&Found],
    faults: &[&Fault],
    fits: impl Fn(&Found, &Fault) -> bool,
) -> Vec<(usize, usize)> {
    let mut taken: Vec<Option<usize>> = vec![None; faults.len()];
    for start in 0..marks.len() {
        // Breadth first: each fault reached, and the mark that reached it.
        let mut reached: Vec<Option<usize>> = vec![None; faults.len()];
        let mut queue = std::collections::VecDeque::from([start]);
        let mut free = None;
        'search: while let Some(mark) = queue.pop_front() {
            for f in 0..faults.len() {
                if reached[f].is_some() || !fits(marks[mark], faults[f]) {
                    continue;
                }
                reached[f] = Some(mark);
                match taken[f] {
                    Some(other) => queue.push_back(other),
                    None => {
                        free = Some(f);
                        break 'search;
                    }
                }
            }
        }
        while let Some(f) = free {
            let Some(mark) = reached[f] else { break };
            free = (0..faults.len()).find(|&other| taken[other] == Some(mark));
            taken[f] = Some(mark);
            if mark == start {
                break;
            }
        }
    }
    let pairs = taken.iter().enumerate();
    pairs.filter_map(|(f, mark)| mark.map(|mark| (mark, f))).collect()
}

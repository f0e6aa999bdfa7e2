//! What groups tell each other: a class, its kits, their groups.
//!
//! The class has one unknown, how much its readings scatter; each kit has one,
//! the state of its apparatus; each group its own slip. That is a tree, on
//! which posteriors are exact in two passes (Pearl, *Probabilistic Reasoning
//! in Intelligent Systems*, 1988, 4.2): evidence goes up from groups to kits
//! to the class, and back down to every group from all the others.
//!
//! A group's message is summed over its own hypotheses, slips included. So a
//! class in which half the groups made one slip does not bend what a kit is
//! taken to be: it is the physics that says which half.

use super::case::{SCATTERS, Table};
use super::cell::States;
use super::prior;

/// A value for each scatter.
type ByScatter = [f64; SCATTERS];

/// What is known of one kit's states, by cell and scatter of the class.
type ByCell = Vec<ByScatter>;

/// Weight of each state for one group, by cell and the group's own scatter:
/// everything that the others say, its own readings not among it.
pub(super) type Weights = Vec<ByScatter>;

/// How likely a group of a class scatters like this.
fn scatters(class: usize, group: usize) -> f64 {
    let own = if class == group {
        prior::SCATTERS_AS_CLASS
    } else {
        0.0
    };
    own + (1.0 - prior::SCATTERS_AS_CLASS) * prior::SCATTER_PRIOR[group]
}

/// The evidence of one group for each state and scatter of its class, summed
/// over its hypotheses; relative to its largest.
fn evidence(table: &Table, states: &States) -> ByCell {
    let mut by_cell: ByCell = Vec::with_capacity(states.cells.len());
    for cell in 0..states.cells.len() {
        let of_group: ByScatter =
            std::array::from_fn(|group| table.at(cell, group).iter().sum::<f64>());
        let of_class = |class: usize| {
            let each = of_group.iter().enumerate();
            each.map(|(group, e)| scatters(class, group) * e).sum()
        };
        by_cell.push(std::array::from_fn(of_class));
    }
    normalised(by_cell)
}

fn normalised(mut by_cell: ByCell) -> ByCell {
    let largest = by_cell.iter().flatten().copied().fold(0.0, f64::max);
    if largest > 0.0 {
        by_cell.iter_mut().flatten().for_each(|e| *e /= largest);
    }
    by_cell
}

/// The same where the apparatus may have changed between the groups of a kit:
/// part of the group's evidence is about some other state.
fn if_changed(by_cell: &ByCell, states: &States) -> ByCell {
    let elsewhere: ByScatter = total(by_cell, states);
    by_cell
        .iter()
        .map(|here| {
            std::array::from_fn(|s| {
                (1.0 - prior::KIT_CHANGED) * here[s] + prior::KIT_CHANGED * elsewhere[s]
            })
        })
        .collect()
}

/// Evidence over all states, by their priors.
fn total(by_cell: &ByCell, states: &States) -> ByScatter {
    std::array::from_fn(|s| {
        let cells = by_cell.iter().zip(&states.cells);
        cells.map(|(e, cell)| e[s] * cell.weight).sum()
    })
}

fn product(one: &ByCell, other: &ByCell) -> ByCell {
    let pairs = one.iter().zip(other);
    normalised(
        pairs
            .map(|(a, b)| std::array::from_fn(|s| a[s] * b[s]))
            .collect(),
    )
}

/// A kit's groups, as tables of evidence.
pub(super) struct KitEvidence<'t> {
    pub(super) states: &'t States,
    pub(super) tables: Vec<&'t Table>,
}

/// The weights of every group of every kit, in their order.
pub(super) fn weights(kits: &[KitEvidence<'_>]) -> Vec<Vec<Weights>> {
    let messages: Vec<Vec<ByCell>> = kits
        .iter()
        .map(|kit| {
            let evidence = |table: &&Table| evidence(table, kit.states);
            kit.tables.iter().map(evidence).collect()
        })
        .collect();
    let shared: Vec<Vec<ByCell>> = kits
        .iter()
        .zip(&messages)
        .map(|(kit, of_groups)| {
            let softened = |message: &ByCell| if_changed(message, kit.states);
            of_groups.iter().map(softened).collect()
        })
        .collect();
    let totals: Vec<ByScatter> = kits
        .iter()
        .zip(&shared)
        .map(|(kit, of_groups)| total(&but(of_groups, None, kit.states), kit.states))
        .collect();
    kits.iter()
        .enumerate()
        .map(|(at, kit)| {
            let class = others(&totals, at);
            (0..kit.tables.len())
                .map(|group| {
                    down(
                        &but(&shared[at], Some(group), kit.states),
                        kit.states,
                        class,
                    )
                })
                .collect()
        })
        .collect()
}

/// The product of the messages of a kit's groups, one left out.
fn but(messages: &[ByCell], left_out: Option<usize>, states: &States) -> ByCell {
    let mut all = vec![[1.0; SCATTERS]; states.cells.len()];
    for (at, message) in messages.iter().enumerate() {
        if Some(at) != left_out {
            all = product(&all, message);
        }
    }
    all
}

/// What the other kits and the prior say of the class's scatter.
fn others(totals: &[ByScatter], kit: usize) -> ByScatter {
    let mut class = prior::SCATTER_PRIOR;
    for (at, of_kit) in totals.iter().enumerate() {
        if at != kit {
            let largest = of_kit.iter().copied().fold(0.0, f64::max);
            for (weight, e) in class.iter_mut().zip(of_kit) {
                *weight *= e / largest.max(f64::MIN_POSITIVE);
            }
        }
    }
    class
}

/// The weight of each state for a group: what its kit's other groups say of
/// the cell, times what the class says of the scatter.
fn down(rest: &ByCell, states: &States, class: ByScatter) -> Weights {
    let elsewhere = total(rest, states);
    let cells = rest.iter().zip(&states.cells);
    cells
        .map(|(here, cell)| {
            let of_class: ByScatter = std::array::from_fn(|s| {
                let kept = (1.0 - prior::KIT_CHANGED) * here[s];
                class[s] * cell.weight * (kept + prior::KIT_CHANGED * elsewhere[s])
            });
            let of_group = |group: usize| {
                let each = of_class.iter().enumerate();
                each.map(|(class, w)| scatters(class, group) * w).sum()
            };
            std::array::from_fn(of_group)
        })
        .collect()
}

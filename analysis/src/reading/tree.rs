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
//!
//! A factor that all groups of a kit share is the kit's, and costs one fault
//! and not four slips. A group may have found the kit otherwise
//! (`KIT_CHANGED`), or scatter unlike its class (`SCATTERS_AS_CLASS`).

use crate::method::model::state::States;
use crate::method::prior;

use super::table::{SCATTERS, Table};

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
    let of_cell = |cell: usize| {
        let of_group: ByScatter =
            std::array::from_fn(|group| table.at(cell, group).iter().sum::<f64>());
        let of_class = |class: usize| {
            let each = of_group.iter().enumerate();
            each.map(|(group, e)| scatters(class, group) * e).sum()
        };
        std::array::from_fn(of_class)
    };
    normalised((0..states.cells.len()).map(of_cell).collect())
}

/// Of hundreds of groups that say different things, no state is ever ruled
/// out: the product of what they say stays a number.
const LEAST: f64 = 1e-100;

fn normalised(mut by_cell: ByCell) -> ByCell {
    let largest = by_cell.iter().flatten().copied().fold(0.0, f64::max);
    for e in by_cell.iter_mut().flatten() {
        *e = (*e / largest).max(LEAST);
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
    let cells = one.iter().zip(other);
    let of_cell = |(a, b): (&ByScatter, &ByScatter)| std::array::from_fn(|s| a[s] * b[s]);
    normalised(cells.map(of_cell).collect())
}

/// For each of some messages the product of all the others (what stands before
/// it times what stands after), and the product of all.
fn others(messages: &[ByCell], cells: usize) -> (Vec<ByCell>, ByCell) {
    let mut after = vec![vec![[1.0; SCATTERS]; cells]];
    for message in messages.iter().rev() {
        after.extend(after.last().map(|after| product(after, message)));
    }
    let all = after.pop().unwrap_or_default();
    let mut before = vec![[1.0; SCATTERS]; cells];
    let mut others = Vec::with_capacity(messages.len());
    for message in messages {
        let after = after.pop().unwrap_or_default();
        others.push(product(&before, &after));
        before = product(&before, message);
    }
    (others, all)
}

/// A kit's groups, as tables of evidence.
pub(super) struct KitEvidence<'t> {
    pub(super) states: &'t States,
    pub(super) tables: Vec<&'t Table>,
}

/// The weights of every group of every kit, in their order.
pub(super) fn weights(kits: &[KitEvidence<'_>]) -> Vec<Vec<Weights>> {
    let mut of_kits = Vec::with_capacity(kits.len());
    let mut rest = Vec::with_capacity(kits.len());
    for kit in kits {
        let shared = |table: &&Table| if_changed(&evidence(table, kit.states), kit.states);
        let messages: Vec<_> = kit.tables.iter().map(shared).collect();
        let (of_others, all) = others(&messages, kit.states.cells.len());
        of_kits.push(vec![total(&all, kit.states)]);
        rest.push(of_others);
    }
    // The class has no cells but one.
    let (class, _) = others(&of_kits, 1);
    let kits = kits.iter().zip(&rest).zip(&class);
    kits.map(|((kit, rest), class)| {
        let of_group = |rest: &ByCell| down(rest, kit.states, class[0]);
        rest.iter().map(of_group).collect()
    })
    .collect()
}

/// The weight of each state for a group: what its kit's other groups say of
/// the cell, times what the class's other kits and the prior say of the
/// scatter.
fn down(rest: &ByCell, states: &States, class: ByScatter) -> Weights {
    let elsewhere = total(rest, states);
    let cells = rest.iter().zip(&states.cells);
    cells
        .map(|(here, cell)| {
            let of_class: ByScatter = std::array::from_fn(|s| {
                let kept = (1.0 - prior::KIT_CHANGED) * here[s];
                prior::SCATTER_PRIOR[s]
                    * class[s]
                    * cell.weight
                    * (kept + prior::KIT_CHANGED * elsewhere[s])
            });
            let of_group = |group: usize| {
                let each = of_class.iter().enumerate();
                each.map(|(class, w)| scatters(class, group) * w).sum()
            };
            std::array::from_fn(of_group)
        })
        .collect()
}

//! What the page says before its tables.

use std::fmt::Write as _;

use kingvalve::refrigerant::PairBasis;

use super::entry::Entry;
use super::peers::Peers;

pub(super) fn opening(page: &mut String, pures: &[Entry], blends: &[Entry], peers: &Peers) {
    let resting = |basis| blends.iter().filter(|entry| entry.worst_pair == Some(basis)).count();
    let _ = write!(
        page,
        "\
# Properties of every refrigerant

{pure} pure refrigerants and {blend} blends pass. `make properties` writes this page; a test fails when its numbers \
drift. A refrigerant passes when its critical point, both saturation lines, their curves and 1,000 random states are \
solved without a failure (`tests/tests/saturation_range.rs`, `curves.rs`), and teqp agrees with it on the grid below \
(`tests/properties`).

Of the blends {measured} rest on pairs that were each measured well enough for a departure function of their own, \
{fitted} on pairs with fitted parameters at the worst, {estimated} have at least one pair without published \
parameters, which is estimated by the combining rules of Lorentz and Berthelot. `Refrigerant::accuracy()` says so of \
each, pair by pair.

## What is compared

The grid is random and the same every time. αʳ: the residual Helmholtz energy and its first and second derivatives \
({alpha:.0} states with teqp), each relative to itself or, where terms cancel, to a tenth of the largest of them; held to \
1e-10. p: pressure at temperature and density, relative to it or, in compressed liquid, to that of the ideal gas; \
saturation: bubble and dew pressure from the cold end to 0.97 of the critical temperature ({saturation:.0} with \
teqp, {coolprop_saturation:.0} with CoolProp, which fails at {failed:.0} more and is wrong without an error at \
{wrong:.0}); held to 1e-6. Entries are the worst relative differences seen.

CoolProp {coolprop} solves its own flashes with its own parameters; where it has none for a pair it is told to use the \
same combining rules. teqp {teqp} evaluates CoolProp's pure-fluid equations with our pair parameters, and Newton's \
iteration on its derivatives solves saturation from our phases spoiled by one per cent; it also looks for a second \
liquid below 0.75 of the critical temperature, and found none.

## Where the models differ, one by one

| | what differs | why | effect |
| --- | --- | --- | --- |
| R-717 | gas constant 8.314462618 J/(mol K), CoolProp's 8.3144598 | Gao 2023, Table 7, whose check values need it | 3.4e-7 in every pressure |
| R-1234ze(E) | gas constant 8.3144621 J/(mol K), CoolProp's 8.314472 | Thol and Lemmon 2016, section 2, whose check values need it | 1.2e-6 in every pressure |
| R-245fa | Einstein temperatures of the ideal part over 427.01 K, CoolProp's over 427.16 K | Akasaka 2015, whose check values need it | heat capacities, not pressures |
| R-1132a, and blends with it | CoolProp has no such fluid | taken from the fluid file of its development branch | compared with teqp only |
| R-21 | the same model | its terms of ±44 cancel to 2e-4 in a thin gas: rounding | αʳ agrees to 2e-10 there instead of 1e-10 |
| every blend | one gas constant, 8.314462618… J/(mol K), in all three | the mixture model needs one | none |
| blends that CoolProp lacks a pair for | told to use Lorentz and Berthelot's rules | it refuses otherwise | none then |
| saturation below 100 Pa | CoolProp takes the liquid's pressure, ours and teqp's is the vapour's | digits cancel in the liquid | some 1e-5 in CoolProp; not in the tables |
| saturation of R-459B at 171 K | the same model | CoolProp's flash stops early at 1 kPa | 4e-6; teqp agrees to 1e-9 |
| blends whose liquid splits in the cold | our lines end where two liquids form, CoolProp's go on | below that the bubble pressure is that of a liquid that is not stable | the range in the table |
",
        pure = pures.len(),
        blend = blends.len(),
        measured = resting(PairBasis::Measured),
        fitted = resting(PairBasis::Fitted),
        estimated = resting(PairBasis::Estimated),
        alpha = peers.total("teqp", "states"),
        saturation = peers.total("teqp", "saturation_states"),
        coolprop_saturation = peers.total("CoolProp", "saturation_states"),
        failed = peers.total("CoolProp", "flash_failed"),
        wrong = peers.total("CoolProp", "flash_wrong"),
        coolprop = peers.version("CoolProp"),
        teqp = peers.version("teqp"),
    );
}

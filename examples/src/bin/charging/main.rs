//! One invented visit, from a standing pressure of some 62 psig to the finished charge over two cylinders: what is known
//! after every step, how sure it is, and what to do next.

mod picture;
mod visit;

use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::ExitCode;

use kingvalve::charge::FullCharge;
use kingvalve::charge::inventory::{Inventory, RunningReading, StandingReading, System};
use kingvalve::charge::plan::{Metering, OnTarget, OutdoorCoil, Plan, Showing, Situation};
use kingvalve::cycle::target::{ChargeTolerance, Target, TargetCheck};
use kingvalve::cylinder::{CylinderUse, Tally};
use kingvalve::measure::{Level, Measured, Reading};
use kingvalve::quantity::*;
use kingvalve::refrigerant::Refrigerant;
use kingvalve_examples::{Text, paragraph, tell};

use visit::{Running, Standing, Step, Visit, Weighed};

const HELP: &str = "\
charging - how much is missing, step by step

usage: charging [--svg FILE]

  --svg FILE  also draw the interval of the charge over the steps, as SVG

The visit is invented: examples/data/charging_r454b.json. The bar runs from
empty to 120 % of the plate charge:
  -  nine times in ten the charge lies here     =  one time in two
  |  as likely above as below                   P  the plate charge";

/// Anything that goes wrong on the way.
type Outcome<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> ExitCode {
    tell("charging", HELP, run)
}

fn run(svg: Option<PathBuf>) -> Text {
    let visit: Visit = serde_json::from_str(include_str!("../../../data/charging_r454b.json"))?;
    let mut job = Job::begin(&visit)?;
    let mut page = String::new();
    writeln!(page, "HOW MUCH IS MISSING, AND WHEN TO STOP\n")?;
    paragraph(&mut page, &visit.note)?;
    for (index, step) in visit.steps.iter().enumerate() {
        writeln!(page, "\n{}.", index + 1)?;
        paragraph(&mut page, &format!("{}.", step.does))?;
        for line in job.take(step)? {
            paragraph(&mut page, &line)?;
        }
        writeln!(page, "   {}", job.inventory.now().bar(visit.plate_charge, 66))?;
        let now = job.inventory.now();
        writeln!(page, "   {:.2}; half the time {:.2}; nine in ten {:.2}", now.median, now.half, now.ninety)?;
        for line in job.next(step)? {
            paragraph(&mut page, &format!("> {line}"))?;
        }
    }
    writeln!(page, "\nWHAT EACH READING CONTRIBUTED\n")?;
    for contribution in job.inventory.contributions() {
        paragraph(
            &mut page,
            &format!("{} ({:.0} of the width)", contribution.text(), contribution.width_left()),
        )?;
    }
    paragraph(&mut page, &job.cylinders()?)?;
    if let Some(file) = svg {
        std::fs::write(file, picture::draw(&job.inventory, visit.plate_charge))?;
    }
    Ok(page)
}

/// The visit as it goes on.
struct Job<'a> {
    visit: &'a Visit,
    refrigerant: Refrigerant,
    site: Site,
    inventory: Inventory,
    weighings: Vec<CylinderUse>,
    cylinder: Mass,
    standing_at: Option<Temperature>,
    showing: Option<Showing>,
}

impl<'a> Job<'a> {
    fn begin(visit: &'a Visit) -> Outcome<Job<'a>> {
        let refrigerant = Refrigerant::named(&visit.refrigerant)?;
        let system = System::of_plate(&refrigerant, visit.plate_charge)?;
        Ok(Job {
            visit,
            site: Site::at_elevation(visit.elevation)?,
            inventory: Inventory::prior(&system)?,
            refrigerant,
            weighings: Vec::new(),
            cylinder: first_cylinder(visit),
            standing_at: None,
            showing: None,
        })
    }

    fn pressure(&self, shown: GaugePressure) -> Outcome<Measured<Pressure>> {
        Ok(self.site.absolute(&Reading::new(shown, self.visit.gauge.clone())?)?)
    }

    /// Takes one step in, and says what was read.
    fn take(&mut self, step: &Step) -> Outcome<Vec<String>> {
        if let Some(standing) = &step.standing {
            return self.stands(standing);
        }
        if let Some(weighed) = &step.weighed {
            return self.weighs(weighed);
        }
        match &step.running {
            Some(running) => self.runs(running, step.coil),
            None => Ok(Vec::new()),
        }
    }

    fn stands(&mut self, standing: &Standing) -> Outcome<Vec<String>> {
        let temperature = Reading::new(standing.temperature, self.visit.thermometer.clone())?;
        let label = format!("standing {:.1}", standing.pressure);
        let reading = StandingReading::at(self.pressure(standing.pressure)?, temperature).labelled(label);
        let finding = self.inventory.finding(&reading)?;
        self.inventory = self.inventory.standing(&reading)?;
        self.standing_at = Some(standing.temperature);
        let read = format!("{:.1} at {:.1}.", standing.pressure, standing.temperature);
        Ok(vec![format!("{read} {}.", finding.meaning())])
    }

    fn weighs(&mut self, weighed: &Weighed) -> Outcome<Vec<String>> {
        let scale = |mass| Reading::new(mass, self.visit.scale.clone());
        let (before, after) = (scale(weighed.before)?, scale(weighed.after)?);
        self.inventory = self.inventory.weighed_in(before.measured() - after.measured())?;
        match self.weighings.last_mut().filter(|last| last.name == weighed.cylinder) {
            Some(last) => last.weights.push(after),
            None => self
                .weighings
                .push(CylinderUse { name: weighed.cylinder.clone(), weights: vec![before, after] }),
        }
        self.cylinder = weighed.after - weighed.tare;
        Ok(vec![format!(
            "{:.2} from cylinder {}, which still holds {:.2}.",
            weighed.before - weighed.after,
            weighed.cylinder,
            self.cylinder
        )])
    }

    fn runs(&mut self, running: &Running, coil: OutdoorCoil) -> Outcome<Vec<String>> {
        let clamp = |t| Reading::new(t, self.visit.thermometer.clone());
        let superheat = self
            .refrigerant
            .superheat(self.pressure(running.suction_pressure)?, clamp(running.suction_line)?)?;
        let subcooling = self
            .refrigerant
            .subcooling(self.pressure(running.liquid_pressure)?, clamp(running.liquid_line)?)?;
        let target = &self.visit.target;
        let full = FullCharge { superheat: target.superheat, subcooling: target.subcooling };
        let tolerance = ChargeTolerance::default();
        let plate = Target::given(target.subcooling, "data plate")?;
        let check = TargetCheck::subcooling(&subcooling, &plate, &tolerance, Level::default())?
            .with_valve_superheat(&superheat, &tolerance, Level::default())?;
        let verdict = check.verdict();
        self.showing = Some(Showing {
            superheat: superheat.value(),
            subcooling: subcooling.value(),
            full,
            against_target: verdict.map_or(OnTarget::Unresolved, OnTarget::by_subcooling),
        });
        let judged = verdict.map_or_else(String::new, ToString::to_string);
        let mut lines = vec![
            format!("Superheat {superheat}, subcooling {subcooling}."),
            format!("Off the target of {:.0}: {judged}", target.subcooling),
        ];
        if coil == OutdoorCoil::Dirty {
            lines.push("Read with a dirty coil: it does not enter the answer.".into());
        } else {
            let label = format!("subcooling {:.1}", subcooling.value());
            let reading = RunningReading::of(superheat, subcooling, full).labelled(label);
            self.inventory = self.inventory.running(&reading)?;
        }
        Ok(lines)
    }

    /// What the plan says now.
    fn next(&self, step: &Step) -> Outcome<Vec<String>> {
        let situation = Situation {
            outdoor_coil: step.coil,
            showing: self.showing.filter(|_| step.running.is_some()),
            standing_at: self.standing_at.filter(|_| self.showing.is_none()).into_iter().collect(),
            ..Situation::ready(Metering::Valve, self.cylinder)
        };
        Ok(Plan::next(&self.inventory, &situation, &self.site)?.next_steps())
    }

    fn cylinders(&self) -> Outcome<String> {
        let tally = Tally::of(&self.weighings)?;
        let total = tally.total();
        Ok(format!("In {} weighings over {} cylinders: {total}.", tally.steps().len(), self.weighings.len()))
    }
}

/// What the first cylinder holds before anything leaves it.
fn first_cylinder(visit: &Visit) -> Mass {
    let first = visit.steps.iter().find_map(|step| step.weighed.as_ref());
    first.map_or(pounds(0.0), |weighed| weighed.before - weighed.tare)
}

//! The right-hand side: growth, lag, sugars and acids of the organisms and sugars that are in the pot.
//!
//! State, packed without gaps: ln N of each organism, ln q of each organism, mmol/kg of each sugar present, lactic,
//! acetic, and days in the cold where the course is ever cold. Counts are followed by their logarithm, so that death by heat is never stiff and no count turns negative.

use super::acid_base::PhTable;
use super::acid_base::charge_balance::Acidity;
use super::kinetics::acid::Resting;
use super::kinetics::store::{self, Loss};
use super::kinetics::{acid, cardinal, death, inhibition, lactase, lag, sugars};
use super::mix::{ABSENT, Mix};
use super::thermal::Course;
use potset_base::Sugar;
use potset_numerics::ode::System;

/// Hours of a day.
const HOURS_A_DAY: f64 = 24.0;

/// Most organisms in one pot.
pub const MOST_ORGANISMS: usize = 12;

/// Most states of a pot: count and lag of each organism, eight sugars, two acids, days in the cold.
pub const MOST_STATES: usize = 2 * MOST_ORGANISMS + 8 + 2 + 1;

/// The system for one mix.
#[derive(Clone, Debug)]
pub struct Pot<'a> {
    pub mix: &'a Mix,
    table: PhTable,
    resting: Resting,
    loss: Loss,
    /// Whether the course is ever cold, so that days in the cold are followed.
    cold: bool,
    /// Places of the sugars that are in the pot, or that may come into it.
    pub present: Vec<usize>,
    /// Place of galactose among the present, for lactose that is split.
    galactose: Option<usize>,
    /// Molecules of each sugar for one of lactic acid, by organism.
    molecules: Vec<[f64; 8]>,
}

/// What warmth makes of one organism, 1/h and pmol/(cfu h).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Warmth {
    /// Rate of ln q.
    pub ripening: f64,
    /// Acid per resting cell.
    pub upkeep: f64,
    pub death: f64,
    /// Loss in the cold once it has set in.
    pub fading: f64,
}

/// What one organism does at a moment.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Doing {
    /// Growth, 1/h, death not yet taken off.
    pub growth: f64,
    /// Death by heat and loss in the cold, 1/h.
    pub death: f64,
    /// Lactic acid, mmol/(kg h).
    pub lactic: f64,
}

/// The state with names.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    pub sugars: [f64; 8],
    pub lactic: f64,
    pub acetic: f64,
}

impl<'a> Pot<'a> {
    /// The system of a mix along its own course.
    pub fn new(mix: &'a Mix) -> Self {
        Self::along(mix, &mix.course)
    }

    /// The system of a mix along another course.
    pub fn along(mix: &'a Mix, course: &Course) -> Self {
        let mut there: [bool; 8] = std::array::from_fn(|s| {
            mix.sugars[s] > 0.0 || mix.additions.iter().any(|addition| addition.sugars[s] > 0.0)
        });
        let lets_go = mix.organisms.iter().any(|o| o.galactose_released > 0.0);
        if there[Sugar::Lactose.index()] && (lets_go || mix.lactase > 0.0) {
            there[Sugar::Galactose.index()] = true;
        }
        if there[Sugar::Lactose.index()] && mix.lactase > 0.0 {
            there[Sugar::Glucose.index()] = true;
        }
        let present: Vec<usize> = (0..8).filter(|s| there[*s]).collect();
        let law = &mix.laws.growth;
        let cold = course.lowest_until(course.end_h()) < law.store_none_c;
        Self {
            mix,
            table: PhTable::new(mix.balance.clone()),
            resting: Resting {
                shift_c: law.resting_shift_c,
                energy_kj_mol: law.cold_energy,
                reference_c: law.rate_reference_c,
                cold_from_c: law.cold_from_c,
                cold_to_c: law.cold_to_c,
            },
            loss: Loss {
                full_below_c: law.store_full_c,
                none_above_c: law.store_none_c,
                reference_c: law.store_reference_c,
                q10: law.store_q10,
                delay_days: law.store_delay_days,
            },
            cold,
            molecules: mix
                .organisms
                .iter()
                .map(|o| Sugar::ALL.map(|s| 1.0 / sugars::lactic_per_molecule(o, s)))
                .collect(),
            galactose: present.iter().position(|p| *p == Sugar::Galactose.index()),
            present,
        }
    }

    /// Length of the packed state.
    pub fn len(&self) -> usize {
        2 * self.mix.organisms.len() + self.present.len() + 2 + usize::from(self.cold)
    }

    /// Whether there is nothing to follow; there is always acid.
    pub const fn is_empty(&self) -> bool {
        false
    }

    /// pH and undissociated lactic acid of a state.
    pub fn acidity(&self, state: &State) -> Acidity {
        self.table.acidity(state.lactic, state.acetic)
    }

    /// What a temperature makes of each organism.
    pub fn warmths(&self, c: f64) -> [Warmth; MOST_ORGANISMS] {
        let mut out = [Warmth::default(); MOST_ORGANISMS];
        for (warmth, o) in out.iter_mut().zip(&self.mix.organisms) {
            *warmth = Warmth {
                ripening: o.speed * o.growth_rate * cardinal::temperature(c, o.temperature),
                upkeep: o.speed
                    * o.acid_per_cell_hour
                    * acid::warmth(c, o.temperature, o.cold_factor, &self.resting),
                death: death::rate(c, o.temperature[2], o.d60_min, o.z_c),
                fading: if self.cold { store::rate(c, o.cold_loss, &self.loss) } else { 0.0 },
            };
        }
        out
    }

    /// The state at the start.
    pub fn start<const N: usize>(&self) -> [f64; N] {
        let n = self.mix.organisms.len();
        let mut y = [0.0; N];
        for (i, o) in self.mix.organisms.iter().enumerate() {
            y[i] = o.count.max(ABSENT).ln();
            y[n + i] = lag::start_log(o.lag_work);
        }
        for (k, s) in self.present.iter().enumerate() {
            y[2 * n + k] = self.mix.sugars[*s];
        }
        let acids = 2 * n + self.present.len();
        y[acids] = self.mix.carried[0];
        y[acids + 1] = self.mix.carried[1];
        y
    }

    /// Puts in what is added during the hold.
    pub fn add<const N: usize>(&self, y: &mut [f64; N], addition: &super::mix::Addition) {
        let n = self.mix.organisms.len();
        for (i, o) in self.mix.organisms.iter().enumerate() {
            let added = addition.counts.get(i).copied().unwrap_or(0.0);
            if added > 0.0 {
                let count = count_of(y[i]);
                y[n + i] = lag::joined(y[n + i], count, lag::start_log(o.lag_work), added);
                y[i] = (count + added).ln();
            }
        }
        for (k, s) in self.present.iter().enumerate() {
            y[2 * n + k] += addition.sugars[*s];
        }
    }

    /// Unpacks sugars and acids.
    pub fn unpack<const N: usize>(&self, y: &[f64; N]) -> State {
        let at = 2 * self.mix.organisms.len();
        let mut sugars = [0.0; 8];
        for (k, s) in self.present.iter().enumerate() {
            sugars[*s] = y[at + k].max(0.0);
        }
        let acids = at + self.present.len();
        State { sugars, lactic: y[acids].max(0.0), acetic: y[acids + 1].max(0.0) }
    }

    /// Days in the cold so far, if they are followed.
    fn days_in_the_cold<const N: usize>(&self, y: &[f64; N]) -> Option<f64> {
        self.cold.then(|| y[self.len() - 1].max(0.0))
    }

    /// What each organism does in a state.
    pub fn doings<const N: usize>(
        &self,
        y: &[f64; N],
        state: &State,
        acidity: Acidity,
        warmths: &[Warmth; MOST_ORGANISMS],
    ) -> [Doing; MOST_ORGANISMS] {
        let mut out = [Doing::default(); MOST_ORGANISMS];
        self.each(y, state, acidity, warmths, |i, doing, _| out[i] = doing);
        out
    }

    /// Works out every organism's doing and its uptake, and hands them on.
    fn each<const N: usize>(
        &self,
        y: &[f64; N],
        state: &State,
        Acidity { ph, undissociated }: Acidity,
        warmths: &[Warmth; MOST_ORGANISMS],
        mut hand: impl FnMut(usize, Doing, &sugars::Uptake),
    ) {
        let n = self.mix.organisms.len();
        let mut counts = [0.0; MOST_ORGANISMS];
        for (count, log) in counts.iter_mut().zip(y.iter().take(n)) {
            *count = count_of(*log);
        }
        let total: f64 = counts[..n].iter().sum();
        let (mut half, mut monod) = (f64::NAN, [0.0; 8]);
        let begun = self.days_in_the_cold(y).map_or(0.0, |days| store::begun(days, &self.loss));
        let room = inhibition::by_crowding(total, self.mix.laws.growth.count_ceiling);
        for (i, o) in self.mix.organisms.iter().enumerate() {
            if counts[i] <= 2.0 * ABSENT {
                // Not one cell in any pot: what is not there does not grow.
                hand(i, Doing::default(), &sugars::Uptake::default());
                continue;
            }
            let by_acid = inhibition::by_acid(undissociated, o.acid_ceiling, o.acid_exponent);
            if o.half_saturation != half {
                half = o.half_saturation;
                monod = sugars::monod(&state.sugars, half, &self.present);
            }
            let uptake = sugars::uptake(o, &monod, &self.present);
            let mut by_partner = 1.0;
            for (partner, share, half) in &o.helpers {
                by_partner *= inhibition::by_partner(partner.map_or(0.0, |p| counts[p]), *share, *half);
            }
            let held = if o.preservatives.is_empty() {
                o.held_back
            } else {
                o.held_back * inhibition::by_preservatives(&o.preservatives, ph)
            };
            let Warmth { ripening, upkeep, death, fading } = warmths[i];
            let growth = ripening
                * held
                * cardinal::ph(ph, o.ph)
                * by_acid
                * uptake.factor
                * by_partner
                * lag::readiness(y[n + i])
                * room;
            let resting = upkeep * held * by_acid * uptake.factor;
            let lactic = acid::rate(counts[i], growth, o.acid_per_cell, resting);
            hand(i, Doing { growth, death: death + begun * fading, lactic }, &uptake);
        }
    }

    /// Rates of change at a temperature and what it makes of the organisms.
    pub fn rates_at<const N: usize>(
        &self,
        y: &[f64; N],
        c: f64,
        warmths: &[Warmth; MOST_ORGANISMS],
        dy: &mut [f64; N],
    ) {
        let n = self.mix.organisms.len();
        let acids = 2 * n + self.present.len();
        let state = self.unpack(y);
        let acidity = self.acidity(&state);
        *dy = [0.0; N];
        self.each(y, &state, acidity, warmths, |i, doing, uptake| {
            let o = &self.mix.organisms[i];
            dy[i] = doing.growth - doing.death;
            dy[n + i] = warmths[i].ripening;
            dy[acids] += doing.lactic;
            dy[acids + 1] += doing.lactic * o.acetic_per_hexose / o.lactic_per_hexose;
            if uptake.total <= 0.0 {
                return;
            }
            let share = doing.lactic / uptake.total;
            for (k, s) in self.present.iter().enumerate() {
                let eaten = share * uptake.terms[*s] * self.molecules[i][*s];
                dy[2 * n + k] -= eaten;
                if *s == Sugar::Lactose.index()
                    && let Some(g) = self.galactose
                {
                    dy[2 * n + g] += eaten * o.galactose_released;
                }
            }
        });
        if self.cold {
            dy[self.len() - 1] = store::coldness(c, &self.loss) / HOURS_A_DAY;
        }
        if self.mix.lactase > 0.0 {
            self.split(c, &state, acidity.ph, dy);
        }
    }

    /// Lactose that lactase splits.
    fn split<const N: usize>(&self, c: f64, state: &State, ph: f64, dy: &mut [f64; N]) {
        let [lactose, galactose] = [Sugar::Lactose, Sugar::Galactose].map(|s| state.sugars[s.index()]);
        let law = &self.mix.laws.lactase;
        let rate = lactase::rate(self.mix.lactase, lactose, galactose, c, ph, law);
        let at = 2 * self.mix.organisms.len();
        for (k, s) in self.present.iter().enumerate() {
            match Sugar::ALL[*s] {
                Sugar::Lactose => dy[at + k] -= rate,
                Sugar::Glucose | Sugar::Galactose => dy[at + k] += rate,
                _ => {}
            }
        }
    }
}

/// Count of a logarithm. A trial step of the integrator may overshoot far beyond any real count; it is refused by its
/// error, as long as no infinity comes of it.
fn count_of(log: f64) -> f64 {
    log.min(60.0).exp()
}

/// The system over a stretch of a course.
pub struct Stretch<'a, 'b> {
    pot: &'a Pot<'b>,
    course: &'a Course,
    piece: usize,
    /// The temperature and what it makes of the organisms, if it stays the same.
    steady: Option<(f64, [Warmth; MOST_ORGANISMS])>,
}

impl<'a, 'b> Stretch<'a, 'b> {
    /// The stretch where a piece of the course is in force.
    pub fn new(pot: &'a Pot<'b>, course: &'a Course, piece: usize) -> Self {
        let steady = course.steady(piece).map(|c| (c, pot.warmths(c)));
        Self { pot, course, piece, steady }
    }
}

impl<const N: usize> System<N> for Stretch<'_, '_> {
    fn rates(&self, t: f64, y: &[f64; N], dy: &mut [f64; N]) {
        if let Some((c, warmths)) = &self.steady {
            self.pot.rates_at(y, *c, warmths, dy);
        } else {
            let c = self.course.in_piece(self.piece, t);
            self.pot.rates_at(y, c, &self.pot.warmths(c), dy);
        }
    }
}

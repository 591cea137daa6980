//! The maker's own hand in a possible pot: what is weighed, labelled, read and kept warm is never quite as planned.

use super::made::{loss, maker};
use super::sampler::{Sampler, Scratch, Z95};
use super::unknowns::UnknownKind;
use potset_doc::{Design, culture_in};
use potset_forecast::learnt::shift_warmer;
use potset_forecast::lever::LeverId;
use potset_forecast::params;
use potset_science::params::Maker;

impl Sampler {
    /// Puts the maker's own hand to its places in a pot.
    pub(super) fn scatter(&self, scratch: &mut Scratch, k: usize, scatter: &Maker) {
        self.as_planned(&mut scratch.design);
        for (i, unknown) in self.unknowns.list.iter().enumerate() {
            let place = self.place(i, k);
            match &unknown.of {
                UnknownKind::Amount { lever_id, bounds: (low, high), .. } => {
                    self.amount(scratch, *lever_id, place.factor(*low, *high));
                }
                UnknownKind::Label(i) => self.label(scratch, *i, maker(place, &scatter.label)),
                UnknownKind::Age(i) => {
                    let days = self.design.cultures[*i].age_days;
                    scratch.design.cultures[*i].age_days = days * maker(place, &scatter.age);
                }
                UnknownKind::Measured { taken, v, spread } => {
                    taken.put(&mut scratch.design, place.value(*v, *spread));
                }
                UnknownKind::Flask { warmer, times, .. } => {
                    let factor = place.factor(1.0 / times, *times);
                    loss((&mut scratch.kitchen, &self.kitchen), warmer, factor);
                }
                UnknownKind::Room => {
                    scratch.kitchen.room_c = self.kitchen.room_c + maker(place, &scatter.room_c);
                }
                UnknownKind::Figures(_)
                | UnknownKind::Thermometer(_)
                | UnknownKind::Warmer(_)
                | UnknownKind::Warmth
                | UnknownKind::LeftOut => {}
            }
        }
        self.dilute(&mut scratch.design);
        self.warmth(scratch, k, scatter);
        for (i, unknown) in self.unknowns.list.iter().enumerate() {
            if let UnknownKind::Warmer(name) = &unknown.of {
                let off =
                    params::shipped().map_or(0.0, |p| maker(self.place(i, k), &p.learning.warmer_off_c));
                shift_warmer(&mut scratch.kitchen, name, off);
            }
        }
    }

    /// Puts every amount back to what is planned: the pot before may have left others.
    fn as_planned(&self, to: &mut Design) {
        let from = &self.design;
        to.bases.iter_mut().zip(&from.bases).for_each(|(to, from)| to.litres = from.litres);
        to.sugars.iter_mut().zip(&from.sugars).for_each(|(to, from)| to.g_per_l = from.g_per_l);
        to.thickeners.iter_mut().zip(&from.thickeners).for_each(|(to, from)| to.g_per_l = from.g_per_l);
        to.additives.iter_mut().zip(&from.additives).for_each(|(to, from)| to.g_per_l = from.g_per_l);
        to.cultures.iter_mut().zip(&from.cultures).for_each(|(to, from)| to.rate = from.rate);
    }

    /// Grams stay grams where there is more or less of the base than planned: doses per litre go the other way.
    fn dilute(&self, design: &mut Design) {
        let share = self.design.litres() / design.litres();
        design.sugars.iter_mut().for_each(|line| line.g_per_l *= share);
        design.thickeners.iter_mut().for_each(|line| line.g_per_l *= share);
        design.additives.iter_mut().for_each(|line| line.g_per_l *= share);
        design.cultures.iter_mut().for_each(|line| line.rate *= share);
    }

    fn amount(&self, scratch: &mut Scratch, lever_id: LeverId, factor: f64) {
        let (from, to) = (&self.design, &mut scratch.design);
        match lever_id {
            LeverId::BaseLitres(i) => to.bases[i].litres = from.bases[i].litres * factor,
            LeverId::SugarDose(i) => to.sugars[i].g_per_l = from.sugars[i].g_per_l * factor,
            LeverId::ThickenerDose(i) => to.thickeners[i].g_per_l = from.thickeners[i].g_per_l * factor,
            LeverId::AdditiveDose(i) => to.additives[i].g_per_l = from.additives[i].g_per_l * factor,
            LeverId::CultureRate(i) => to.cultures[i].rate = from.cultures[i].rate * factor,
            // Nothing else is measured out.
            _ => {}
        }
    }

    fn label(&self, scratch: &mut Scratch, i: usize, factor: f64) {
        let from = &self.design.bases[i].label;
        let to = &mut scratch.design.bases[i].label;
        let moved = |v: Option<f64>| v.map(|v| v * factor);
        to.fat = moved(from.fat);
        to.protein = moved(from.protein);
        to.sugars = moved(from.sugars);
        to.carbohydrate = moved(from.carbohydrate);
        to.fibre = moved(from.fibre);
        to.saturates = moved(from.saturates);
    }

    /// What the thermometer is off by, and what one place is warmer than the next.
    fn warmth(&self, scratch: &mut Scratch, k: usize, scatter: &Maker) {
        let error = self.kitchen.thermometer_c;
        let off = self.z("thermometer", k) * error / Z95;
        let warmer =
            self.unknowns.find("warmth").map_or(0.0, |at| maker(self.place(at, k), &scatter.warmth_c));
        let mut steps = self.design.steps.clone();
        culture_in::shift(&mut steps, off);
        scratch.design.steps = steps;
        scratch.kitchen.warmers.clone_from(&self.kitchen.warmers);
        for warmer in &mut scratch.kitchen.warmers {
            warmer.offset_c += off;
        }
        if let Some(hold) = scratch.design.hold_mut() {
            hold.set_c += warmer;
            for reading in &mut hold.measured {
                reading.c += off;
            }
        }
    }
}

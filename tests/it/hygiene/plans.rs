//! Plans, dangerous and harmless, each with the row that is told first. Expected by the table of `model.md` §7 alone.

use potset_doc::design::{AddedWhen, AdditiveLine, BaseLine, CultureLine, GoesIn, SugarLine, ThickenerLine};
use potset_doc::goals::Goals;
use potset_doc::pantry::Sterility;
use potset_doc::steps::{Event, Happening, Hold, Reading, Step, Way};
use potset_doc::{Design, Kitchen, assets};
use potset_forecast::hygiene::Souring;
use potset_judge::hygiene::{Level, Row};

pub struct Plan {
    pub name: &'static str,
    pub design: Design,
    pub kitchen: Kitchen,
    pub expect: Option<(Level, Row)>,
}

/// A kitchen at 20 °C.
fn kitchen(room_c: f64) -> Kitchen {
    Kitchen { room_c, ..Kitchen::default() }
}

fn hold(warmer: &str, set_c: f64, hours: f64) -> Step {
    Step::Hold(Hold { warmer: warmer.to_owned(), set_c, hours, events: Vec::new(), measured: Vec::new() })
}

fn base(key: &str, litres: f64) -> BaseLine {
    BaseLine::new(key.to_owned(), litres)
}

fn culture(key: &str, rate: f64) -> CultureLine {
    let text = format!("(entry: \"{key}\", rate: {rate:?}, powder: one_to_ten)");
    ron::from_str(&text).unwrap()
}

const FRIDGE: Step = Step::Chill { to_c: 6.0, hours: 12.0, way: Way::Fridge };

/// Tinned coconut cream with sugar and a full dose of an active culture, warm, long enough, chilled in small jars.
fn coconut() -> Design {
    let mut d = crate::support::demo("coconut-pot.ron");
    d.bases = vec![base("coconut_cream_tinned", 1.0)];
    d.sugars = vec![SugarLine::new("white_sugar".to_owned(), 12.5)];
    d.thickeners.clear();
    d.cultures = vec![culture("nondairy_adjuncts", 2.0)];
    d.pots.vessel = "jar_250ml".to_owned();
    d.pots.count = 4;
    d.goals = Goals::default();
    d.steps = vec![
        Step::Start { from_c: 20.0 },
        Step::Warm { to_c: 41.0, way: Way::Bath },
        Step::CultureIn,
        hold("heated_pot", 41.0, 24.0),
        FRIDGE,
    ];
    d
}

/// Pasteurised milk, heated again, with a full dose.
fn milk() -> Design {
    let mut d = coconut();
    d.bases = vec![base("whole_cows_milk", 1.0)];
    d.sugars.clear();
    d.cultures = vec![culture("dairy_pair", 2.0)];
    d.steps = vec![
        Step::Start { from_c: 4.0 },
        Step::HeatTreat { to_c: 85.0, minutes: 20.0, way: Way::Pan },
        Step::Cool { to_c: 42.0, way: Way::ColdWater },
        Step::CultureIn,
        hold("heated_pot", 42.0, 9.0),
        FRIDGE,
    ];
    d
}

/// Pasteurised milk, only warmed.
fn milk_warmed() -> Design {
    let mut d = milk();
    d.steps.splice(1..3, [Step::Warm { to_c: 42.0, way: Way::Bath }]);
    d
}

/// Milk that comes raw.
fn raw_milk(mut d: Design) -> Design {
    d.refresh_snapshot(&assets::pantry().unwrap());
    for entry in &mut d.snapshot.bases {
        entry.sterility = Sterility::Fresh;
    }
    d
}

fn raw_coconut() -> Design {
    let mut d = coconut();
    d.bases = vec![base("coconut_cream_raw", 1.0)];
    d.cultures[0].rate = 5.0;
    d
}

fn cashew() -> Design {
    let mut d = coconut();
    d.bases = vec![base("cashew_cream_1_3", 1.0)];
    d.cultures[0].rate = 5.0;
    d
}

/// Changes of a plan.
trait Change: Sized {
    fn design(&mut self) -> &mut Design;

    fn with(mut self, change: impl FnOnce(&mut Design)) -> Self {
        change(self.design());
        self
    }

    /// A step just before the culture.
    fn last(self, step: Step) -> Self {
        self.with(|d| {
            let at = d.steps.iter().position(|s| *s == Step::CultureIn).unwrap();
            d.steps.insert(at, step);
        })
    }

    /// A step just after the start.
    fn first(self, step: Step) -> Self {
        self.with(|d| d.steps.insert(1, step))
    }

    fn from(self, c: f64) -> Self {
        self.with(|d| d.steps[0] = Step::Start { from_c: c })
    }

    fn stand(self, hours: f64) -> Self {
        self.first(Step::Stand { hours, way: Way::Room })
    }

    fn held(self, warmer: &str, c: f64, hours: f64) -> Self {
        self.with(|d| {
            let at = d.steps.iter().position(|s| matches!(s, Step::Hold(_))).unwrap();
            d.steps[at] = hold(warmer, c, hours);
        })
    }

    fn event(self, at_h: f64, what: Happening) -> Self {
        self.with(|d| d.hold_mut().unwrap().events.push(Event { at_h, what }))
    }

    fn logged(self, readings: &[(f64, f64)]) -> Self {
        self.with(|d| {
            d.hold_mut().unwrap().measured =
                readings.iter().map(|(at_h, c)| Reading { at_h: *at_h, c: *c }).collect();
        })
    }

    fn dose(self, rate: f64) -> Self {
        self.with(|d| d.cultures[0].rate = rate)
    }

    fn no_culture(self) -> Self {
        self.with(|d| d.cultures.clear())
    }

    fn chilled(self, to_c: f64, hours: f64, way: Way) -> Self {
        self.with(|d| {
            d.steps.retain(|s| !matches!(s, Step::Chill { .. }));
            d.steps.push(Step::Chill { to_c, hours, way });
        })
    }

    fn no_chill(self) -> Self {
        self.with(|d| d.steps.retain(|s| !matches!(s, Step::Chill { .. })))
    }

    fn store(self, days: f64, at_c: f64) -> Self {
        self.with(|d| d.steps.push(Step::Store { days, at_c }))
    }

    fn frail(self) -> Self {
        self.with(|d| d.goals.frail_eaters = true)
    }

    fn litres(self, litres: f64, vessel: &str, count: u32) -> Self {
        self.with(|d| {
            d.bases[0].litres = litres;
            d.pots.vessel = vessel.to_owned();
            d.pots.count = count;
        })
    }

    fn thickener(self, key: &str, g_per_l: f64) -> Self {
        self.with(|d| {
            let text = format!("(entry: \"{key}\", g_per_l: {g_per_l:?})");
            let mut line: ThickenerLine = ron::from_str(&text).unwrap();
            line.goes_in = GoesIn::WithTheBase;
            d.thickeners = vec![line];
        })
    }

    fn additive(self, key: &str, g_per_l: f64) -> Self {
        self.with(|d| {
            let text = format!("(entry: \"{key}\", g_per_l: {g_per_l:?})");
            let mut line: AdditiveLine = ron::from_str(&text).unwrap();
            line.when = AddedWhen::WithTheBase;
            d.additives = vec![line];
        })
    }

    fn boiled(self) -> Self {
        self.with(|d| {
            d.steps.splice(
                1..2,
                [
                    Step::HeatTreat { to_c: 96.0, minutes: 6.0, way: Way::Pan },
                    Step::Cool { to_c: 41.0, way: Way::ColdWater },
                ],
            );
        })
    }
}

impl Change for Design {
    fn design(&mut self) -> &mut Design {
        self
    }
}

const D: Level = Level::Discard;
const W: Level = Level::Watch;
const CANNED: Row = Row::SlowSouring(Souring::Canned);
const DAIRY: Row = Row::SlowSouring(Souring::Dairy);
const STRICT: Row = Row::SlowSouring(Souring::Strict);

fn at(room_c: f64, name: &'static str, design: Design, level: Level, row: Row) -> Plan {
    Plan { name, design, kitchen: kitchen(room_c), expect: Some((level, row)) }
}

fn plan(name: &'static str, design: Design, level: Level, row: Row) -> Plan {
    at(20.0, name, design, level, row)
}

fn fine(name: &'static str, design: Design) -> Plan {
    Plan { name, design, kitchen: kitchen(20.0), expect: None }
}

pub fn dangerous() -> Vec<Plan> {
    let mut all = before();
    all.extend(in_the_hold());
    all.extend(after());
    all.extend(two_faults());
    all
}

#[allow(clippy::too_many_lines, reason = "a table")]
fn before() -> Vec<Plan> {
    let room = |hours: f64| Step::Stand { hours, way: Way::Room };
    let slow = |to_c: f64| Step::Cool { to_c, way: Way::Room };
    vec![
        plan("opened coconut, two days in the room", coconut().stand(48.0), D, Row::BaseStood),
        plan("opened coconut, five hours in the room", coconut().stand(5.0), D, Row::BaseStood),
        at(
            25.0,
            "opened coconut, three hours in a hot room",
            coconut().from(24.0).stand(3.0),
            W,
            Row::BaseStood,
        ),
        at(
            25.0,
            "opened coconut, five hours in a hot room",
            coconut().from(24.0).stand(5.0),
            D,
            Row::BaseStood,
        ),
        plan(
            "milk from 10 °C, five hours out, only warmed",
            milk_warmed().from(10.0).stand(5.0),
            D,
            Row::BaseStood,
        ),
        plan(
            "milk from the fridge, seven hours out, only warmed",
            milk_warmed().stand(7.0),
            D,
            Row::BaseStood,
        ),
        at(
            26.0,
            "milk from the fridge, five hours in a hot room",
            milk_warmed().stand(5.0),
            D,
            Row::BaseStood,
        ),
        at(
            26.0,
            "milk from the fridge, seven hours in a hot room, then heated",
            milk().stand(7.0),
            D,
            Row::Reheated,
        ),
        plan("milk, ten hours out, then heated", milk().from(10.0).stand(10.0), D, Row::Reheated),
        plan(
            "raw coconut, a day out, then boiled",
            raw_coconut()
                .stand(24.0)
                .last(Step::HeatTreat { to_c: 97.0, minutes: 10.0, way: Way::Pan })
                .last(Step::Cool { to_c: 41.0, way: Way::ColdWater }),
            D,
            Row::Reheated,
        ),
        plan(
            "cashews, half a day out, then boiled",
            cashew()
                .stand(12.0)
                .last(Step::HeatTreat { to_c: 90.0, minutes: 10.0, way: Way::Pan })
                .last(Step::Cool { to_c: 41.0, way: Way::ColdWater }),
            D,
            Row::Reheated,
        ),
        plan("cashews, half a day out", cashew().stand(12.0), D, Row::BaseStood),
        plan("heated milk left for five hours before the culture", milk().last(room(5.0)), D, Row::BaseStood),
        at(
            24.0,
            "heated milk left for three hours before the culture",
            milk().last(room(3.0)).last(Step::Warm { to_c: 42.0, way: Way::Bath }),
            W,
            Row::HeatedCoolsSlowly,
        ),
        plan(
            "a thousand litres of heated milk cool in the room",
            milk().litres(1000.0, "bucket_5l", 200).with(|d| d.steps[2] = slow(42.0)),
            D,
            Row::BaseStood,
        ),
        plan(
            "fifteen litres of heated milk cool in the room",
            milk().litres(15.0, "bucket_5l", 3).with(|d| d.steps[2] = slow(42.0)),
            W,
            Row::HeatedCoolsSlowly,
        ),
        plan(
            "cooked rice flour cools in the room in a big pot",
            coconut()
                .boiled()
                .thickener("rice_flour", 15.0)
                .litres(12.0, "bucket_5l", 3)
                .with(|d| d.steps[2] = slow(41.0)),
            W,
            Row::HeatedCoolsSlowly,
        ),
        plan("raw milk, only warmed", raw_milk(milk_warmed()), W, Row::RawMilk),
        plan(
            "raw milk, warmed to 55 °C and cooled",
            raw_milk(milk())
                .with(|d| d.steps[1] = Step::HeatTreat { to_c: 55.0, minutes: 10.0, way: Way::Pan }),
            W,
            Row::RawMilk,
        ),
        plan("raw coconut for frail eaters", raw_coconut().frail(), W, Row::RawForFrail),
        plan("raw cashews for frail eaters", cashew().dose(10.0).frail(), W, Row::RawForFrail),
        plan(
            "raw coconut warmed to 80 °C for frail eaters",
            raw_coconut()
                .frail()
                .last(Step::HeatTreat { to_c: 80.0, minutes: 5.0, way: Way::Pan })
                .last(Step::Cool { to_c: 41.0, way: Way::ColdWater }),
            W,
            Row::RawForFrail,
        ),
        plan(
            "coconut and raw cashews for frail eaters",
            coconut().frail().with(|d| d.bases.push(base("cashew_cream_1_3", 0.5))),
            W,
            Row::RawForFrail,
        ),
    ]
}

#[allow(clippy::too_many_lines, reason = "a table")]
fn in_the_hold() -> Vec<Plan> {
    let cut = |minutes: f64| Happening::PowerCut { minutes };
    vec![
        plan("coconut, next to no culture", coconut().dose(0.0002).held("heated_pot", 41.0, 30.0), D, CANNED),
        plan(
            "coconut, an old culture kept warm",
            coconut()
                .dose(0.3)
                .with(|d| {
                    d.cultures[0].age_days = 80.0;
                    d.cultures[0].kept_c = Some(25.0);
                })
                .held("heated_pot", 41.0, 30.0),
            D,
            CANNED,
        ),
        plan(
            "coconut without sugar to eat",
            coconut().with(|d| {
                d.bases = vec![base("coconut_drink_light", 1.0)];
                d.sugars.clear();
            }),
            D,
            CANNED,
        ),
        plan(
            "coconut fed with a sweetener only",
            coconut().with(|d| {
                d.bases = vec![base("coconut_drink_light", 1.0)];
                d.sugars = vec![SugarLine::new("erythritol".to_owned(), 15.0)];
            }),
            D,
            CANNED,
        ),
        plan("coconut at 30 °C", coconut().held("heated_pot", 30.0, 24.0), D, STRICT),
        plan("coconut at 25 °C", coconut().held("warm_cupboard", 25.0, 24.0), D, STRICT),
        plan("coconut in a cold cupboard from 41 °C", coconut().held("warm_cupboard", 22.0, 24.0), D, STRICT),
        plan("coconut, a power cut of ten hours", coconut().event(2.0, cut(600.0)), D, STRICT),
        plan(
            "coconut in the fridge by mistake",
            coconut().event(1.0, Happening::SetTo { c: 10.0 }),
            D,
            STRICT,
        ),
        plan(
            "coconut, logged at 28 °C",
            coconut().logged(&[(0.0, 41.0), (3.0, 30.0), (12.0, 28.0)]),
            D,
            STRICT,
        ),
        plan("coconut at 50 °C", coconut().held("heated_pot", 50.0, 24.0), D, CANNED),
        plan("coconut at 53 °C", coconut().held("heated_pot", 53.0, 24.0), D, STRICT),
        plan(
            "coconut at 65 °C, then left at 40 °C",
            coconut().logged(&[(0.0, 65.0), (3.0, 65.0), (4.0, 40.0), (24.0, 40.0)]),
            D,
            Row::NotCultured,
        ),
        plan(
            "coconut, the culture into 80 °C",
            coconut().with(|d| d.steps[1] = Step::Warm { to_c: 80.0, way: Way::Bath }),
            D,
            Row::NotCultured,
        ),
        plan("coconut without a culture", coconut().no_culture(), D, Row::NotCultured),
        plan(
            "coconut, the culture forgotten for eight hours",
            coconut()
                .no_culture()
                .event(8.0, Happening::LateCulture { entry: "nondairy_adjuncts".to_owned(), rate: 2.0 }),
            D,
            Row::NotCultured,
        ),
        plan("heated milk without a culture", milk().no_culture(), D, Row::CookedNotCultured),
        plan("warmed milk without a culture", milk_warmed().no_culture(), D, Row::NotCultured),
        plan(
            "salted milk, in which the culture does next to nothing",
            milk().additive("salt", 60.0).held("heated_pot", 40.0, 30.0),
            D,
            DAIRY,
        ),
        plan(
            "milk at 33 °C with a culture that likes it warm",
            milk().dose(0.05).held("heated_pot", 30.0, 24.0),
            D,
            STRICT,
        ),
        plan(
            "milk, the flask is cold",
            milk().dose(0.2).held("insulated_flask", 42.0, 24.0).logged(&[
                (0.0, 36.0),
                (4.0, 30.0),
                (12.0, 25.0),
            ]),
            D,
            STRICT,
        ),
        plan("milk at 51 °C", milk().held("heated_pot", 51.0, 24.0), D, DAIRY),
        plan(
            "milk, the culture into 75 °C",
            milk().with(|d| d.steps[2] = Step::Cool { to_c: 75.0, way: Way::ColdWater }),
            D,
            Row::NotCultured,
        ),
        plan("raw coconut, a weak culture", raw_coconut().dose(0.2), D, STRICT),
        plan("raw cashews, a weak culture", cashew().dose(0.1), D, STRICT),
        plan("raw coconut without a culture", raw_coconut().no_culture(), D, Row::NotCultured),
        plan(
            "a saved culture in coconut, too little of it",
            coconut().with(|d| d.cultures = vec![culture("back_slop_coconut", 0.05)]),
            D,
            STRICT,
        ),
        plan(
            "raw milk, warmed, too little culture",
            raw_milk(milk_warmed()).dose(0.0001).held("heated_pot", 42.0, 24.0),
            D,
            STRICT,
        ),
        plan(
            "coconut stopped after six hours",
            coconut().held("heated_pot", 41.0, 6.0).litres(1.0, "jar_1l", 1),
            D,
            Row::SweetChill,
        ),
        plan(
            "milk stopped after two hours",
            milk().held("heated_pot", 42.0, 2.0).litres(1.0, "jar_1l", 1),
            D,
            Row::SweetChill,
        ),
        plan(
            "milk stopped after two hours and not chilled",
            milk().held("heated_pot", 42.0, 2.0).no_chill(),
            D,
            Row::SweetChill,
        ),
        plan(
            "coconut stopped early, in ice, kept nine days",
            coconut().held("heated_pot", 41.0, 6.0).chilled(5.0, 12.0, Way::IceBath).store(9.0, 4.0),
            D,
            Row::SweetStore,
        ),
        plan(
            "coconut stopped early, in ice, kept at 10 °C",
            coconut().held("heated_pot", 41.0, 6.0).chilled(5.0, 12.0, Way::IceBath).store(2.0, 10.0),
            D,
            Row::SweetStore,
        ),
    ]
}

fn after() -> Vec<Plan> {
    vec![
        plan("coconut, no chill", coconut().no_chill(), W, Row::NoChill),
        plan("milk, no chill", milk().no_chill(), W, Row::NoChill),
        at(
            22.0,
            "coconut left in the room for four days",
            coconut().chilled(22.5, 96.0, Way::Room),
            D,
            Row::WarmStore,
        ),
        plan("coconut cooled in the room for a day", coconut().chilled(21.0, 24.0, Way::Room), W, Row::Chill),
        plan(
            "coconut, a bucket of 20 L in the fridge",
            coconut().litres(20.0, "bucket_5l", 1),
            W,
            Row::Chill,
        ),
        plan("coconut in a vacuum flask in the fridge", coconut().litres(1.0, "flask_1l", 1), W, Row::Chill),
        plan("coconut kept a fortnight at 20 °C", coconut().store(14.0, 20.0), W, Row::Store),
        plan("coconut kept three days at 40 °C", coconut().store(3.0, 40.0), D, Row::WarmStore),
        plan("coconut kept a day at 25 °C", coconut().store(1.5, 25.0), D, Row::WarmStore),
        plan("coconut kept at 12 °C", coconut().store(3.0, 12.0), W, Row::Store),
        plan("coconut kept ten days at 7 °C", coconut().store(10.0, 7.0), W, Row::Store),
        plan("coconut kept twenty days at 4 °C", coconut().store(20.0, 4.0), W, Row::Store),
        plan("milk kept twenty days at 4 °C", milk().store(20.0, 4.0), W, Row::Store),
        plan("milk kept nine days at 8 °C", milk().store(9.0, 8.0), W, Row::Store),
        plan("milk kept two days at 30 °C", milk().store(2.0, 30.0), D, Row::WarmStore),
        plan("milk kept at 15 °C", milk().store(2.0, 15.0), W, Row::Store),
    ]
}

fn two_faults() -> Vec<Plan> {
    vec![
        plan("stood two days, and kept at 40 °C", coconut().stand(48.0).store(3.0, 40.0), D, Row::BaseStood),
        plan("stood two days, and no chill", coconut().stand(48.0).no_chill(), D, Row::BaseStood),
        plan(
            "stood two days, and too cold",
            coconut().stand(48.0).held("heated_pot", 28.0, 24.0),
            D,
            Row::BaseStood,
        ),
        plan("no culture, and no chill", coconut().no_culture().no_chill(), D, Row::NotCultured),
        plan("too cold, and kept warm", coconut().held("heated_pot", 28.0, 24.0).store(3.0, 30.0), D, STRICT),
        plan("too cold, and no chill", coconut().held("heated_pot", 28.0, 24.0).no_chill(), D, STRICT),
        plan("no chill, and kept at 40 °C", coconut().no_chill().store(3.0, 40.0), D, Row::WarmStore),
        plan("no chill, and kept long", coconut().no_chill().store(20.0, 4.0), W, Row::NoChill),
        plan(
            "raw coconut for frail eaters, and no chill",
            raw_coconut().frail().no_chill(),
            W,
            Row::RawForFrail,
        ),
        plan("raw coconut for frail eaters, and a weak culture", raw_coconut().frail().dose(0.2), D, STRICT),
        plan("raw milk, and kept warm", raw_milk(milk_warmed()).store(2.0, 30.0), D, Row::WarmStore),
        plan("raw milk, and no chill", raw_milk(milk_warmed()).no_chill(), W, Row::RawMilk),
        plan(
            "heated milk cools slowly, and is kept long",
            milk()
                .litres(15.0, "bucket_5l", 3)
                .with(|d| d.steps[2] = Step::Cool { to_c: 42.0, way: Way::Room })
                .store(20.0, 4.0),
            W,
            Row::HeatedCoolsSlowly,
        ),
        plan("too hot, and no chill", coconut().held("heated_pot", 53.0, 24.0).no_chill(), D, STRICT),
        plan(
            "a pot soured with acid and no culture, kept at 40 °C",
            coconut().no_culture().additive("citric_acid", 8.0).store(3.0, 40.0),
            D,
            Row::WarmStore,
        ),
        plan(
            "a pot soured with acid and no culture, no chill",
            coconut().no_culture().additive("citric_acid", 8.0).no_chill(),
            W,
            Row::NoChill,
        ),
    ]
}

pub fn harmless() -> Vec<Plan> {
    let mesophilic = || {
        milk().with(|d| d.cultures = vec![culture("mesophilic_dairy", 2.0)]).held("warm_cupboard", 28.0, 20.0)
    };
    vec![
        fine("coconut", coconut()),
        fine("coconut, a day and a half", coconut().held("heated_pot", 41.0, 36.0)),
        fine("coconut at 38 °C", coconut().held("heated_pot", 38.0, 24.0)),
        fine("coconut at 44 °C", coconut().held("heated_pot", 44.0, 24.0)),
        fine("coconut in a warm cupboard", coconut().held("warm_cupboard", 41.0, 24.0)),
        fine("coconut kept a week", coconut().store(7.0, 4.0)),
        fine("coconut kept a fortnight", coconut().store(13.5, 5.0)),
        fine("coconut kept five days at 7 °C", coconut().store(5.0, 7.0)),
        fine("coconut, opened an hour before", coconut().stand(1.0)),
        fine(
            "coconut, moved about for half an hour",
            coconut().event(3.0, Happening::Move { minutes: 30.0 }),
        ),
        fine("coconut with cold-swelling starch", coconut().thickener("tapioca_starch_cold", 14.0)),
        fine("coconut in litre jars", coconut().litres(2.0, "jar_1l", 2)),
        fine("raw coconut, boiled first", raw_coconut().boiled()),
        fine("raw coconut, boiled first, for frail eaters", raw_coconut().boiled().frail()),
        fine("milk", milk()),
        fine("milk, only warmed", milk_warmed()),
        fine("milk, twelve hours", milk().held("heated_pot", 42.0, 12.0)),
        fine("milk from the fridge, five hours in a cool room", milk_warmed().stand(5.0)),
        fine(
            "milk with lactase, a night in the fridge",
            milk_warmed().first(Step::Stand { hours: 12.0, way: Way::Fridge }),
        ),
        fine("raw milk, heated", raw_milk(milk())),
        fine("milk kept a week", milk().store(7.0, 4.0)),
        fine("milk chilled in ice", milk().chilled(5.0, 12.0, Way::IceBath)),
        fine("milk with a culture that likes it cool", mesophilic()),
        fine("milk, held long, for frail eaters", milk().frail()),
    ]
}

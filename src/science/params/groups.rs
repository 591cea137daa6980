//! The groups of parameters: each name once, for the cited value and for the plain number.

use serde::Deserialize;

use potset_base::Cited;

laws! {
    /// Acids and their constants.
    Acids => AcidLaw {
        lactic_pka,
        acetic_pka,
        benzoic_pka,
        sorbic_pka,
        /// pH read per °C of warmth, milk.
        electrode_per_c,
    }
}

laws! {
    /// Lactase.
    Lactase => LactaseLaw {
        /// mmol/h per unit at the reference temperature.
        rate_per_unit,
        /// mmol/kg.
        half_saturation,
        /// Galactose that halves its hold on lactose, mmol/kg.
        product_half,
        energy,
        reference_c,
        end_c,
        ph_min,
        ph_opt,
        ph_max,
    }
}

laws! {
    /// How cultures age, and what that costs them.
    Ageing => AgeingLaw {
        /// Work to be done per decade of cells lost.
        lag_per_decade,
        /// Factor on the loss of an open or damp packet.
        open_factor,
        /// Work to be done of yogurt from the fridge, fresh.
        slop_lag,
        /// Back-slop in the fridge: decades lost a month, and work to be done a day.
        slop_loss_month,
        slop_lag_day,
        dry_kept_c,
        wet_kept_c,
    }
}

laws! {
    /// Pace of a plant culture by kind of base, against tinned coconut cream.
    Paces => PaceLaw {
        coconut,
        soy,
        oat,
        nut,
        pea,
        rice,
    }
}

laws! {
    /// Straining in a cloth.
    Strain => StrainLaw {
        /// Protein at which nothing more runs off, g/100 g.
        end_protein,
        time_h,
        /// Protein from which, and from which wholly, a gel holds the rest back, g/100 g.
        holds_from,
        holds_to,
    }
}

laws! {
    /// Growth and acid beyond the single organism.
    Growth => GrowthLaw {
        /// cfu/g.
        count_ceiling,
        /// °C.
        resting_shift_c,
        /// kJ/mol.
        cold_energy,
        /// °C.
        rate_reference_c,
        cold_from_c,
        cold_to_c,
        /// Factor on cold acid of mild, medium and sharp cultures.
        cold_mild,
        cold_medium,
        cold_sharp,
        /// Loss of living cells in the cold: in full below, not at all above, stated at, °C.
        store_full_c,
        store_none_c,
        store_reference_c,
        store_q10,
        /// d.
        store_delay_days,
        /// Where an entry tells none, decades a week.
        store_loss,
    }
}

laws! {
    /// Whey-protein denaturation, order 1.5: two Arrhenius lines, the slower of them holds.
    Whey => WheyLaw {
        /// kJ/mol and ln(1/s).
        low_energy,
        low_ln_k0,
        high_energy,
        high_ln_k0,
    }
}

laws! {
    /// The acid gel of dairy and of plant protein.
    Gel => GelLaw {
        /// Stiffness at 42 °C, pH 4.6, 3.3 % protein: unheated, and what full denaturation adds, Pa.
        unheated_pa,
        heated_pa,
        /// Calcium that gels of pectin and the like need for full strength, mg/100 g.
        calcium_enough,
        heat_exponent,
        protein_reference,
        protein_exponent_heated,
        protein_exponent_unheated_extra,
        /// pH where the gel starts: unheated, and how much heat raises it.
        start_ph,
        start_ph_heat,
        end_ph,
        ph_exponent,
        /// Loss of stiffness per pH below `weaken_below_ph`.
        weaken_below_ph,
        weaken_per_ph,
        /// Per °C of incubation above 42, set gels.
        incubation_slope,
        reference_c,
        /// Per °C of cooling.
        chill_slope,
        /// Days in the cold: the most that they can do, and their time constant, d.
        most_by_days,
        days_tau,
        over_heat_per_c,
        over_heat_from_c,
        /// Soy protein gel: stiffness at its reference protein, Pa; g/100 g; exponent; start pH; chill slope.
        soy_pa,
        soy_reference,
        soy_exponent,
        soy_start_ph,
        soy_chill_slope,
        /// Pea protein gel, likewise.
        pea_pa,
        pea_reference,
        pea_exponent,
        pea_start_ph,
        pea_chill_slope,
        /// Nut protein: stiffness at its reference protein, Pa; g/100 g.
        nut_pa,
        nut_reference,
        /// Filler effect of fat: shell factor and largest packing.
        filler_packing,
        filler_exponent,
        /// Exclusion by swollen starch.
        exclusion,
    }
}

laws! {
    /// Flow of a broken gel, and what handling leaves of it.
    Flow => FlowLaw {
        yield_share,
        consistency_share,
        index,
        /// Factors of slime on yield stress and consistency, and what it adds to the index.
        ropy_yield,
        ropy_consistency,
        ropy_index,
        /// Share of the protein gel's flow that is left: spooned, stirred, worked, blended.
        spooned,
        stirred,
        worked,
        blended,
        /// How soy and pea gels flow once broken, against dairy of like stiffness.
        plant_flow,
        /// Share of the fat network that is left, likewise.
        fat_spooned,
        fat_stirred,
        fat_worked,
        fat_blended,
        /// One sigma of apparent viscosity, as a factor.
        sigma_dairy,
        sigma_emulsion,
        sigma_plant,
    }
}

laws! {
    /// Whey and water.
    Wheying => WheyingLaw {
        /// Centrifuged whey, %, at the reference protein, 42 °C.
        centrifuged,
        protein_exponent,
        fat_slope,
        incubation_slope,
        standing_share,
        standing_slope,
        cut_share,
        /// Factor of slime on whey.
        ropy_whey,
        /// Water outside granules without a protein gel, %.
        starch_only,
        /// Stiffness at which the solid fat holds half the free water, Pa.
        fat_hold_pa,
        /// Stiffness at which the protein gel, not the starch, decides, Pa.
        gel_lead_pa,
    }
}

laws! {
    /// Thresholds of the words.
    Words => WordLaw {
        /// Apparent viscosity at 50 1/s, Pa·s.
        pours_below,
        ribbons_below,
        dollops_below,
        /// Stiffness of an undisturbed, gel-led pot that is cut, Pa.
        cuts_above_pa,
        /// Undissociated lactic acid, mmol/kg.
        flat_below,
        mild_below,
        bright_below,
        sharp_below,
        /// Sucrose equivalents over acid, by weight.
        acid_leads_below,
        balanced_below,
        /// Sucrose equivalents, g/kg.
        not_sweet_below,
        little_sweet_below,
        sweet_below,
        /// Sweetness against sucrose.
        sweet_lactose,
        sweet_glucose,
        sweet_fructose,
        sweet_galactose,
        sweet_maltose,
        sweet_raffinose,
        sweet_stachyose,
    }
}

laws! {
    /// When a pot may be called done.
    Ready => ReadyLaw {
        release_ph,
        release_ph_strict,
        /// Line of the cautions.
        acid_line_ph,
        culture_end_c,
        cold_below_c,
    }
}

laws! {
    /// Ways of warming and cooling: temperature of the medium, °C, and time constant for one litre, min.
    Ways => WayLaw {
        pan_medium_c,
        pan_min,
        bath_medium_c,
        bath_min,
        tap_min,
        /// Kilograms of hot tap water for each kilogram of base.
        tap_bath_ratio,
        cold_water_min,
        ice_medium_c,
        ice_min,
        /// How a time constant grows with volume.
        volume_exponent,
        scald_c,
        scald_s,
    }
}

laws! {
    /// Coconut: reference fat of undiluted tinned cream, and the Codex limits.
    Coconut => CoconutLaw {
        reference_fat,
        watery_below_share,
        light_solids,
        milk_solids,
        cream_solids,
        concentrate_solids,
        /// Least fat and least non-fat solids of each class, g/100 g.
        light_fat,
        milk_fat,
        cream_fat,
        concentrate_fat,
        light_other,
        milk_other,
        cream_other,
        concentrate_other,
    }
}

laws! {
    /// What is never quite the same from one making to the next, as factors on and additions to what the design says.
    Maker => MakerLaw {
        /// Factor on the figures of a label, all together.
        label,
        /// Factor on the age of a culture.
        age,
        /// Added to the room, °C.
        room_c,
        /// Added to the pot's warmth, °C.
        warmth_c,
        /// What readings are off by where the design does not say: added to a pH, and to an acidity, % lactic acid.
        measured_ph,
        measured_acidity,
        /// Factors on the acid of a titration, a count, a pace, a lag.
        measured_titration,
        measured_count,
        measured_pace,
        measured_lag,
    }
}

laws! {
    /// How far readings of a pot are off, and how what is not known of a pot is shared out to what lasts.
    Learning => LearningLaw {
        /// One sigma of a reading: pH by a meter and by a paper strip, acidity, % lactic acid, warmth, °C, line spread, cm.
        meter_ph,
        strip_ph,
        acidity,
        warmth_c,
        line_spread_cm,
        /// One sigma of a person's words for tang, sweetness and texture, as a factor on what they are told by.
        word,
        /// One sigma of the pH of a pot whose figures are all known.
        law_ph,
        /// What a warmer is off by of which nothing is known, °C.
        warmer_off_c,
        /// Factor on the texture of pots of one base.
        body,
        /// Shares of the doubt about a culture that stay with it, and that go by the packet; the rest is of each pot.
        of_culture,
        of_packet,
        /// Shares of the doubt that stay with a base, a warmer and a thickener; the rest is of each pot.
        of_base,
        of_warmer,
        of_thickener,
    }
}

laws! {
    /// Putting things together.
    Mixing => MixingLaw {
        /// Volume that dissolved or suspended dry matter takes up, L/kg.
        solids_volume,
        /// Mean buffer of a plant base: by % of protein, by mg/100 g of phosphorus, and the rest, mmol/(kg pH).
        buffer_protein,
        buffer_phosphorus,
        buffer_rest,
    }
}

//! The limits of the cautions.

use serde::Deserialize;

use potset_base::Cited;

laws! {
    /// Limits of the cautions on time and warmth: °C, h, days, shares.
    Hygiene => HygieneLaw {
        /// Highest release pH that a maker may set.
        release_ph_most,
        /// Boiled: so warm for so many minutes; coconut warmer.
        boiled_c,
        boiled_coconut_c,
        boiled_min,
        /// Pasteurised: so warm for so many seconds, or as much by a tenfold change every `pasteurised_z_c`.
        pasteurised_c,
        pasteurised_s,
        pasteurised_z_c,
        /// Above this nothing that matters grows.
        hot_c,
        /// A warm room, a cold place, and a fridge that is too warm for long.
        room_c,
        cold_c,
        fridge_c,
        /// The base before the culture.
        base_watch_h,
        base_discard_h,
        base_kept_cold_discard_h,
        /// From `hot_c` to the culture's warmth.
        heated_watch_h,
        /// Hours outside the warmth of souring, while it is not yet sour, before the strict row holds.
        strict_after_h,
        /// From `hot_c` to `room_c`, and to `cold_c`.
        cool_first_h,
        cool_whole_h,
        /// After the hold, a soured pot: below `room_c`, and below `fridge_c`.
        chill_room_h,
        chill_fridge_h,
        /// Store, days: up to `cold_c`, and up to `fridge_c`.
        store_cold_days,
        store_fridge_days,
        /// Store above `room_c`, h.
        store_warm_h,
        /// Store of a pot that has not soured: days in the cold, hours above `cold_c`.
        sweet_store_days,
        sweet_store_h,
        /// Share of the cells put in below which a culture counts as dead.
        living_share,
        /// Share of the pot's acid that the culture must have made.
        soured_share,
        /// Share of an organism's best pace below which warmth is called wrong, and for how long, h.
        slow_share,
        slow_for_h,
        /// Share of the possible pots from which a discard is watched for.
        watch_share,
    }
}

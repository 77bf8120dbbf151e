/* Generated from SensorSim.Detection/Movement/PulseSpectrum.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/long_division.h"
#include "fixed_point/sat.h"
#include "fixed_point/shift.h"
#include "fixed_point/wide.h"
#include "fixed_point/words.h"
#include "movement/fft256.h"
#include "movement/half_ring.h"
#include "movement/movement_words.h"
#include "movement/pulse_spectrum.h"
#include "movement/rate_track.h"
#include "movement/spectrum_pair.h"

static void ss_pulse_spectrum_window(ss_pulse_spectrum_t *self);
static void ss_pulse_spectrum_compare(ss_pulse_spectrum_t *self, const ss_word256_t *light, const ss_word256_t *artefact);
static ss_half80_t ss_pulse_spectrum_evidence(const ss_pulse_spectrum_t *self, const ss_word256_t *light, const ss_word256_t *artefact);
static int32_t ss_pulse_spectrum_excess(const ss_pulse_spectrum_t *self, int32_t power, int32_t artefact, int32_t floor);
static int32_t ss_pulse_spectrum_peak_near(const ss_word256_t *light, int32_t bin);

bool ss_pulse_spectrum_start(ss_pulse_spectrum_t *self, int32_t light_rate_hz)
{
    if ((light_rate_hz < SS_PULSE_SPECTRUM_MINIMUM_RATE_HZ) || (light_rate_hz > SS_PULSE_SPECTRUM_MAXIMUM_RATE_HZ)) {
        return false;
    }

    *self = (ss_pulse_spectrum_t){ 0 };
    self->decimation = ((2 * light_rate_hz) + 12) / 25;
    self->rate_milli_hz = (light_rate_hz * 1000) / self->decimation;
    int32_t length = (8 * self->rate_milli_hz) / 1000;
    self->length = (length < SS_HALF104_LENGTH) ? length : SS_HALF104_LENGTH;
    self->hop = ((2 * self->rate_milli_hz) + 500) / 1000;
    self->hann_step16 = 32768 / self->length;
    self->first_bin = (SS_PULSE_SPECTRUM_LOWEST_BPM * SS_FFT256_LENGTH * 1000) / (60 * self->rate_milli_hz);
    int32_t states = ((SS_PULSE_SPECTRUM_HIGHEST_BPM * SS_FFT256_LENGTH * 1000) / (60 * self->rate_milli_hz)) - self->first_bin + 1;
    self->states = (states < SS_HALF80_LENGTH) ? states : SS_HALF80_LENGTH;
    ss_pulse_spectrum_restart(self);
    return true;
}

void ss_pulse_spectrum_restart(ss_pulse_spectrum_t *self)
{
    ss_half_ring_restart(&self->light, self->length);
    ss_half_ring_restart(&self->artefact, self->length);
    ss_rate_track_restart(&self->track, self->states);
    self->unexplained = 1 << SS_PULSE_SPECTRUM_UNEXPLAINED_BITS;
    self->is_fresh = true;
    self->phase = 0;
    self->light_sum = 0;
    self->artefact_sum = 0;
    self->filled = 0;
    self->since = 0;
    self->resting = 0;
    self->is_trusted = false;
    self->quality = 0;
}

bool ss_pulse_spectrum_take(ss_pulse_spectrum_t *self)
{
    if (self->is_fresh) {
        self->is_fresh = false;
        self->level = self->light_sum;
    }

    /* A step of the level goes through in a second and does not tilt the window. */
    int32_t high = ss_sat_narrow(ss_sat_sub32(self->light_sum, self->level), 1 << 30);
    self->level += ss_shift_round(high, SS_PULSE_SPECTRUM_LEVEL_SHIFT);
    ss_half_ring_add(&self->light, high);
    ss_half_ring_add(&self->artefact, self->artefact_sum);
    self->phase = 0;
    self->light_sum = 0;
    self->artefact_sum = 0;
    self->filled += (self->filled < self->length) ? 1 : 0;
    self->since++;
    int32_t value = self->since;
    if ((value < self->hop) || (self->filled < self->length)) {
        return false;
    }

    self->since = 0;
    ss_half_ring_settle(&self->light);
    ss_half_ring_settle(&self->artefact);
    self->resting = (self->is_resting && (self->resting < SS_PULSE_SPECTRUM_MOST_RESTING)) ? (self->resting + 1) : 0;
    if (self->resting != 0) {
        return false;
    }

    ss_pulse_spectrum_window(self);
    return true;
}

static void ss_pulse_spectrum_window(ss_pulse_spectrum_t *self)
{
    ss_spectrum_pair_t spectra = { 0 };
    ss_spectrum_pair_make(&spectra, &self->light, &self->artefact, self->length, self->hann_step16);
    ss_spectrum_pair_spread(&spectra);
    ss_pulse_spectrum_compare(self, &spectra.first, &spectra.second);
    ss_half80_t evidence_value = ss_pulse_spectrum_evidence(self, &spectra.first, &spectra.second);
    ss_rate_track_add(&self->track, &evidence_value);
    int32_t peak = ss_pulse_spectrum_peak_near(&spectra.first, self->first_bin + self->track.best);
    self->rate_milli_bpm = (int32_t)ss_shift_right64(((int64_t)peak * INT64_C(60) * (int64_t)self->rate_milli_hz) + INT64_C(32768), 16);
    int32_t margin = self->track.margin;
    self->is_trusted = margin > SS_PULSE_SPECTRUM_TRUSTED_MARGIN;
    self->quality = (uint8_t)((margin > 1020) ? 255 : ss_shift_right32(margin, 2));
}

/* u: the regression of what is left on what was taken off, at bins where the pulse is not. */
static void ss_pulse_spectrum_compare(ss_pulse_spectrum_t *self, const ss_word256_t *light, const ss_word256_t *artefact)
{
    int32_t bin = self->first_bin + self->track.best;
    int64_t both = INT64_C(0);
    int64_t free = INT64_C(0);
    int64_t all = INT64_C(0);
    for (int32_t k = self->first_bin; k < SS_PULSE_SPECTRUM_HIGHEST_OF_USE; k++) {
        int64_t taken = (int64_t)ss_shift_right32(artefact->at[k], 8);
        all += ss_shift_right64(taken * taken, 8);
        if ((ss_sat_abs32(k - bin) > SS_RATE_TRACK_NEIGHBOURS) && (ss_sat_abs32(k - (2 * bin)) > SS_RATE_TRACK_NEIGHBOURS)) {
            free += ss_shift_right64(taken * taken, 8);
            both += ss_shift_right64((int64_t)ss_shift_right32(light->at[k], 8) * taken, 8);
        }
    }

    /* Where the pulse lies on all the strong lines, there is nothing to learn from. */
    if (free > ss_shift_right64(all, 5)) {
        int32_t shift = ss_wide_bits_int64(free) - 30;
        uint32_t share = (uint32_t)ss_wide_shifted(free, -((shift > 0) ? shift : 0));
        uint64_t left = (uint64_t)ss_wide_shifted(both, SS_PULSE_SPECTRUM_UNEXPLAINED_BITS - ((shift > 0) ? shift : 0));
        int32_t now = ss_long_division_rounded(left, share);
        self->unexplained += ss_shift_round(((now < SS_PULSE_SPECTRUM_MOST_UNEXPLAINED) ? now : SS_PULSE_SPECTRUM_MOST_UNEXPLAINED)
            - self->unexplained, 2);
    }
}

static ss_half80_t ss_pulse_spectrum_evidence(const ss_pulse_spectrum_t *self, const ss_word256_t *light, const ss_word256_t *artefact)
{
    int32_t sum = 0;
    for (int32_t s = 0; s < self->states; s++) {
        sum += light->at[self->first_bin + s];
    }

    /* Below a quarter of the mean, power is no evidence against a rate. */
    int32_t floor = ss_shift_right32(ss_long_division_rounded((uint64_t)sum, (uint32_t)self->states), 2) + 1;
    ss_half80_t evidence = (ss_half80_t){ 0 };
    for (int32_t s = 0; s < self->states; s++) {
        int32_t k = self->first_bin + s;
        int32_t value = ss_pulse_spectrum_excess(self, light->at[k], artefact->at[k], floor);
        int32_t twice = 2 * k;
        if (twice < (SS_SPECTRUM_PAIR_BINS - 1)) {
            int32_t power = (light->at[twice - 1] > light->at[twice + 1]) ? light->at[twice - 1] : light->at[twice + 1];
            int32_t more = ss_pulse_spectrum_excess(self, (power > light->at[twice]) ? power : light->at[twice], artefact->at[twice],
                floor);
            value += (more < 0) ? 0 : ((more < SS_PULSE_SPECTRUM_SECOND_HARMONIC_CAP) ? more : SS_PULSE_SPECTRUM_SECOND_HARMONIC_CAP);
        }

        evidence.at[s] = (int16_t)value;
    }

    return evidence;
}

static int32_t ss_pulse_spectrum_excess(const ss_pulse_spectrum_t *self, int32_t power, int32_t artefact, int32_t floor)
{
    return ss_wide_log2_in256((int64_t)power + (int64_t)floor)
        - ss_wide_log2_in256((int64_t)floor + ss_shift_right64((int64_t)artefact * (int64_t)self->unexplained,
        SS_PULSE_SPECTRUM_UNEXPLAINED_BITS));
}

/* Centre of power of the peak next to a bin: of a rate that varies within the window it is the mean. In 1/256 bin. */
static int32_t ss_pulse_spectrum_peak_near(const ss_word256_t *light, int32_t bin)
{
    int32_t top = (light->at[bin - 1] > light->at[bin]) ? (bin - 1) : bin;
    top = (light->at[bin + 1] > light->at[top]) ? (bin + 1) : top;
    int64_t power = INT64_C(0);
    int64_t moment = INT64_C(0);
    for (int32_t offset = -2; offset <= 2; offset++) {
        power += (int64_t)light->at[top + offset];
        moment += (int64_t)light->at[top + offset] * (int64_t)offset;
    }

    int32_t size = ss_long_division_rounded((uint64_t)((moment < INT64_C(0)) ? -moment : moment) << 8, (uint32_t)(power + INT64_C(1)));
    return ss_shift_left32(top, 8) + ((moment < INT64_C(0)) ? -size : size);
}

/* Generated from SensorSim.Detection/Ambient/LitSlot.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#ifndef SS_AMBIENT_LIT_SLOT_H
#define SS_AMBIENT_LIT_SLOT_H

#include "sensorsim_runtime.h"
#include "sensorsim_types.h"

#define SS_LIT_SLOT_RAIL 16777215

/*
 * Where one lit slot lies between the dark ones: several colours share one dark_subtraction.
 * Input: codes of up to 24 bits, and the room's light. Product: see room_at. Accumulator: 32 bits. Worst case: full scale less full scale.
 * Output: light without room, from zero, clipped to 24 bits and sign; no delay.
 */
struct ss_lit_slot {
    int32_t zero;
    int32_t place256;
    int32_t step256;
    int32_t now256;
};

/*
 * Prepares for a stream. The arguments are those that start has allowed.
 * light_rate_hz: Rate of the lit slot [Hz], a whole number of times that of the dark one.
 * dark_rate_hz: Rate of the dark slot [Hz].
 * shift256: Where in the interval of the dark slot the lit one lies after it [1/256], 0 to 255.
 * zero_code: Code of the lit slot that stands for no light.
 */
void ss_lit_slot_start(ss_lit_slot_t *self, int32_t light_rate_hz, int32_t dark_rate_hz, int32_t shift256, int32_t zero_code);

/* A dark sample was taken. */
void ss_lit_slot_dark(ss_lit_slot_t *self);

/*
 * Takes the next sample of the lit slot. All dark samples up to its tick have been given.
 * light_code: The code.
 * room: The room's light.
 * Returns: Light of the LED [codes above zero].
 */
int32_t ss_lit_slot_next(ss_lit_slot_t *self, int32_t light_code, const ss_dark_subtraction_t *room);

#endif

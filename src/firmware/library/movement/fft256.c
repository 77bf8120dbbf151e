/* Generated from SensorSim.Detection/Movement/Fft256.cs; change that and run: dotnet run --project src/SensorSim.TwinWriter */
/* SPDX-License-Identifier: MIT */
#include "fixed_point/words.h"
#include "movement/fft256.h"
#include "movement/sine_table.h"

static const uint8_t ss_fft256_nibble[16] = {
    0, 8, 4, 12, 2, 10, 6, 14, 1, 9, 5, 13,
    3, 11, 7, 15,
};

int32_t ss_fft256_reversed(int32_t place)
{
    return ss_shift_left32(ss_fft256_nibble[place & 15], 4) | ss_fft256_nibble[ss_shift_right32(place, 4) & 15];
}

void ss_fft256_transform(ss_word256_t *re, ss_word256_t *im)
{
    ss_room_int32_t x = ss_room_int32_of(re->at, 256);
    ss_room_int32_t y = ss_room_int32_of(im->at, 256);
    x = ss_room_int32_slice(x, 0, SS_FFT256_LENGTH);
    y = ss_room_int32_slice(y, 0, SS_FFT256_LENGTH);

    /* Pairs: nothing turns. */
    for (int32_t a = 0; a < SS_FFT256_LENGTH; a += 2) {
        int32_t real = x.at[a + 1];
        int32_t imaginary = y.at[a + 1];
        x.at[a + 1] = x.at[a] - real;
        y.at[a + 1] = y.at[a] - imaginary;
        x.at[a] += real;
        y.at[a] += imaginary;
    }

    for (int32_t half = 2, turn = 64; half < SS_FFT256_LENGTH; half = ss_shift_left32(half, 1), turn = ss_shift_right32(turn, 1)) {
        for (int32_t j = 0; j < half; j++) {
            int32_t cosine = ss_sine_table_cosine(j * turn);
            int32_t sine = ss_sine_table_sine(j * turn);
            for (int32_t a = j; a < SS_FFT256_LENGTH; a += 2 * half) {
                int32_t b = a + half;
                int64_t right = (int64_t)x.at[b];
                int64_t up = (int64_t)y.at[b];
                int32_t real = (int32_t)ss_shift_right64((right * (int64_t)cosine) + (up * (int64_t)sine) + (int64_t)SS_FFT256_HALF, 15);
                int32_t imaginary = (int32_t)ss_shift_right64((up * (int64_t)cosine) - (right * (int64_t)sine) + (int64_t)SS_FFT256_HALF,
                    15);
                x.at[b] = x.at[a] - real;
                y.at[b] = y.at[a] - imaginary;
                x.at[a] += real;
                y.at[a] += imaginary;
            }
        }
    }
}

/* SPDX-License-Identifier: MIT
 *
 * An independent reader and writer of EDF+ and BDF+ files for the tests of SensorSim.Files: EDFlib does the work, this only prints and feeds.
 *
 *   edf_check read FILE           header, every sample and every annotation as text
 *   edf_check write FILE KIND N   a file of KIND edf or bdf with N blocks of known samples and annotations
 */
#include <edflib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define SLOW 50
#define FAST 200

static int fail(const char *what)
{
    fprintf(stderr, "%s\n", what);
    return 1;
}

static int read_file(const char *path)
{
    static struct edf_hdr_struct header;
    if (edfopen_file_readonly(path, &header, EDFLIB_READ_ALL_ANNOTATIONS) != 0) {
        fprintf(stderr, "EDFlib refuses the file: %d\n", header.filetype);
        return 1;
    }

    printf("file %d %d %lld %lld\n", header.filetype, header.edfsignals, header.datarecord_duration, header.datarecords_in_file);
    printf("start %04d-%02d-%02d %02d:%02d:%02d\n", header.startdate_year, header.startdate_month, header.startdate_day, header.starttime_hour,
           header.starttime_minute, header.starttime_second);
    printf("equipment %s\n", header.equipment);
    for (int i = 0; i < header.edfsignals; i++) {
        const struct edf_param_struct *s = &header.signalparam[i];
        printf("signal|%s|%s|%s|%.10g|%.10g|%d|%d|%d|%lld\n", s->label, s->transducer, s->physdimension, s->phys_min, s->phys_max, s->dig_min,
               s->dig_max, s->smp_in_datarecord, s->smp_in_file);
    }

    for (int i = 0; i < header.edfsignals; i++) {
        long long left = header.signalparam[i].smp_in_file;
        int codes[1024];
        printf("samples %d", i);
        while (left > 0) {
            int got = edfread_digital_samples(header.handle, i, 1024, codes);
            if (got < 1)
                return fail("samples cannot be read");
            for (int k = 0; k < got; k++)
                printf(" %d", codes[k]);
            left -= got;
        }
        printf("\n");
    }

    for (int i = 0; i < header.annotations_in_file; i++) {
        struct edf_annotation_struct note;
        if (edf_get_annotation(header.handle, i, &note) != 0)
            return fail("an annotation cannot be read");
        printf("note %lld %lld %s\n", note.onset, note.duration_l, note.annotation);
    }

    return edfclose_file(header.handle);
}

static int write_file(const char *path, int is_bdf, int blocks)
{
    int top = is_bdf ? 8388607 : 32767;
    int handle = edfopen_file_writeonly(path, is_bdf ? EDFLIB_FILETYPE_BDFPLUS : EDFLIB_FILETYPE_EDFPLUS, 2);
    int wrong = handle < 0;
    wrong |= edf_set_samplefrequency(handle, 0, FAST) | edf_set_samplefrequency(handle, 1, SLOW);
    wrong |= edf_set_label(handle, 0, "ECG II") | edf_set_physical_dimension(handle, 0, "uV");
    wrong |= edf_set_physical_maximum(handle, 0, 3000) | edf_set_physical_minimum(handle, 0, -3000);
    wrong |= edf_set_digital_maximum(handle, 0, top) | edf_set_digital_minimum(handle, 0, -top);
    wrong |= edf_set_label(handle, 1, "Accel Y") | edf_set_physical_dimension(handle, 1, "m/s^2");
    wrong |= edf_set_physical_maximum(handle, 1, -40) | edf_set_physical_minimum(handle, 1, 40);
    wrong |= edf_set_digital_maximum(handle, 1, 4095) | edf_set_digital_minimum(handle, 1, -4096);
    wrong |= edf_set_startdatetime(handle, 2031, 12, 5, 23, 59, 58);
    if (wrong != 0)
        return fail("EDFlib does not take the header");

    for (int b = 0; b < blocks; b++) {
        int fast[FAST], slow[SLOW];
        for (int i = 0; i < FAST; i++)
            fast[i] = (int)((long long)(b * FAST + i) * 7919 % (2LL * top + 1)) - top;
        for (int i = 0; i < SLOW; i++)
            slow[i] = (b * SLOW + i) * 31 % 8192 - 4096;
        if (edfwrite_digital_samples(handle, fast) != 0 || edfwrite_digital_samples(handle, slow) != 0)
            return fail("EDFlib does not take the samples");
        char text[32];
        snprintf(text, sizeof text, "beat %d", b);
        /* Units of 100 microseconds. */
        if (edfwrite_annotation_utf8(handle, b * 10000LL + 2500, b % 2 == 0 ? -1 : 1250, text) != 0)
            return fail("EDFlib does not take the annotation");
    }

    return edfclose_file(handle);
}

int main(int argc, char **argv)
{
    if (argc == 3 && strcmp(argv[1], "read") == 0)
        return read_file(argv[2]);
    if (argc == 5 && strcmp(argv[1], "write") == 0)
        return write_file(argv[2], strcmp(argv[3], "bdf") == 0, atoi(argv[4]));
    return fail("usage: edf_check read FILE | edf_check write FILE edf|bdf N");
}

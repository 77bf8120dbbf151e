/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "vector_out.h"

void vector_out(const char *text)
{
    fputs(text, stdout);
}

int vector_end(const char *fault)
{
    if (fault != NULL) {
        fputs(fault, stdout);
    }

    return fault != NULL || fflush(stdout) != 0 || ferror(stdout) ? 1 : 0;
}

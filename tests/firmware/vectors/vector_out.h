/* SPDX-License-Identifier: MIT */
/* Where vector_answers.c prints. */
#ifndef VECTOR_OUT_H
#define VECTOR_OUT_H

void vector_out(const char *text);

/* The last call. A fault: text that is printed first; 0: none. Returns the program's exit code; a board ends here. */
int vector_end(const char *fault);

#endif

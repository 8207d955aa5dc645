/* The command table: looks at a request, obeys or refuses it, and answers with one terminal reply. */
#ifndef COMMAND_H
#define COMMAND_H

#include <stdbool.h>

#include "request.h"

/* True when the request was accepted. */
bool command_obey(const struct request *request);

/* Refuses a line that could not be read. */
void command_refuse_line(enum jig_error error);

#endif

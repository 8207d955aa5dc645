/*
 * Requests: gathers a line from single bytes, checks it, and finds its fields.
 *
 * A line is kept once, in one buffer; a request points into it, so it must be answered before the
 * next byte is taken.
 */
#ifndef REQUEST_H
#define REQUEST_H

#include <stdbool.h>
#include <stdint.h>

#include "errors.h"
#include "text.h"

#define REQUEST_MAX 120

/* What a byte completed. */
enum request_state { REQUEST_NONE, REQUEST_WHOLE, REQUEST_DAMAGED };

struct request {
  uint16_t tag;
  bool checked;
  enum jig_error damage; /* for REQUEST_DAMAGED */
  char *words;  /* the verb, then each field, each ended by NUL */
  uint8_t count; /* words */
};

enum request_state request_take(uint8_t byte, struct request *request);

/* Whether the verb and every field have the form that the grammar asks for. */
bool request_well_formed(const struct request *request);

/* The value of a field, or NULL. */
const char *request_value(const struct request *request, flash_text key);

/* Whether a string in memory equals a text. */
bool request_is(const char *string, flash_text text);

/* The next word. */
const char *request_after(const char *word);

/* A whole number of at most ten digits; saturates at the ends of 32 bits. False when malformed. */
bool request_number(const char *value, bool *negative, uint32_t *magnitude);

#endif

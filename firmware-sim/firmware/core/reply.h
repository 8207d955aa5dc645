/*
 * The one terminal reply to the request at hand. What obeys a request calls the reply_refuse functions, each of which
 * gives false, where it finds the first thing wrong, or writes an accepting reply.
 */
#ifndef REPLY_H
#define REPLY_H

#include <stdbool.h>
#include <stdint.h>

#include "request.h"

/* The request at hand. */
extern const struct request *reply_asked;

/* A request is at hand, or none that could be read (NULL); nothing is wrong with it yet. */
void reply_begin(const struct request *request);

/* What is wrong, with the field concerned, or NULL. */
bool reply_refuse(enum jig_error error, flash_text field);
/* A field that the verb does not take, or takes once: the word as it came, its key checked to be well formed. */
bool reply_refuse_word(enum jig_error error, const char *word);
/* A number outside its range, as it came. */
bool reply_refuse_given(flash_text field, const char *given, int32_t low, int32_t high);
/* The same where no word shows the number. */
bool reply_refuse_range(flash_text field, int32_t number, int32_t low, int32_t high);
/* ERROR_ABOVE_LIMIT and ERROR_LINK_TOO_SLOW: what was asked for, and what there is. */
bool reply_refuse_beyond(enum jig_error error, int32_t asked, int32_t most);

/* Halts the jig and sends the refusal. */
void reply_refused(void);

/* An accepting reply: the fields of the answer are written between the two. */
void reply_ok_begin(void);
/* Gives true, as does the next. */
bool reply_ok_end(void);
bool reply_ok(void);

#endif

#include "reply.h"

#include <stddef.h>
#include <string.h>

#include "jig.h"
#include "out.h"
#include "stream.h"

const struct request *reply_asked;

/* Why a request is refused: filled in by the first check that fails. */
static struct {
  enum jig_error error;
  flash_text field;  /* NULL: none */
  const char *word;  /* where the table found it: the field as it came, or NULL */
  const char *given; /* a number as it came, or NULL */
  int32_t given_number;
  int32_t low;
  int32_t high;
} why;

void reply_begin(const struct request *request) {
  memset(&why, 0, sizeof why);
  reply_asked = request;
}

/* ---- refusing ---- */

bool reply_refuse(enum jig_error error, flash_text field) {
  why.error = error;
  why.field = field;
  return false;
}

bool reply_refuse_word(enum jig_error error, const char *word) {
  why.word = word;
  return reply_refuse(error, NULL);
}

bool reply_refuse_given(flash_text field, const char *given, int32_t low, int32_t high) {
  why.given = given;
  return reply_refuse_range(field, 0, low, high);
}

bool reply_refuse_range(flash_text field, int32_t number, int32_t low, int32_t high) {
  why.given_number = number;
  why.low = low;
  why.high = high;
  return reply_refuse(ERROR_VALUE_OUT_OF_RANGE, field);
}

bool reply_refuse_beyond(enum jig_error error, int32_t asked, int32_t most) {
  why.given_number = asked;
  why.high = most;
  return reply_refuse(error, NULL);
}

static const char name_none[] IN_FLASH = "";
#define NAME_OF(id, name) static const char name_##id[] IN_FLASH = name;
ERROR_ROWS(NAME_OF)

static flash_text name_of(enum jig_error error) {
#define CASE_OF(id, name) \
  case id:                \
    return name_##id;
  switch (error) {
    ERROR_ROWS(CASE_OF)
    case ERROR_NONE:
    default:
      return name_none;
  }
}

/* A number of at most ten digits as the specification writes it: no leading zeros, no "-0". */
static void out_as_given(const char *given) {
  bool negative = *given == '-';
  if (negative) {
    given++;
  }
  while (*given == '0' && given[1] != '\0') {
    given++;
  }
  if (negative && *given != '0') {
    out_char('-');
  }
  out_string(given);
}

static void out_details(void) {
  if (why.field != NULL) {
    out_field_text(TEXT("field"), why.field);
  } else if (why.word != NULL) {
    out_key(TEXT("field"));
    for (const char *c = why.word; *c != '='; c++) {
      out_char(*c);
    }
  }
  switch (why.error) {
    case ERROR_VALUE_OUT_OF_RANGE:
      out_key(TEXT("given"));
      if (why.given != NULL) {
        out_as_given(why.given);
      } else {
        out_s32(why.given_number);
      }
      out_field_s32(TEXT("low"), why.low);
      out_field_s32(TEXT("high"), why.high);
      break;
    case ERROR_ABOVE_LIMIT:
      out_field_s32(TEXT("given"), why.given_number);
      out_field_s32(TEXT("high"), why.high);
      break;
    case ERROR_LINK_TOO_SLOW:
      out_field_s32(TEXT("needs"), why.given_number);
      out_field_s32(TEXT("has"), why.high);
      break;
    default:
      break;
  }
}

/* The tag of a line that could not be read is not to be trusted: 0 stands for it. */
void reply_refused(void) {
  jig_halt(TEXT("refused"));
  out_u32(reply_asked == NULL ? 0 : reply_asked->tag);
  out_text(TEXT(" no "));
  out_u32(why.error);
  out_char(' ');
  out_text(name_of(why.error));
  out_details();
  if (reply_asked != NULL && !reply_asked->checked) {
    out_text(TEXT(" checked=no"));
  }
  out_end();
}

/* ---- accepting ---- */

void reply_ok_begin(void) {
  stream_between_lines(); /* finding the answer took its time */
  out_u32(reply_asked->tag);
  out_text(TEXT(" ok"));
}

bool reply_ok_end(void) {
  if (!reply_asked->checked) {
    out_text(TEXT(" checked=no"));
  }
  out_end();
  return true;
}

bool reply_ok(void) {
  reply_ok_begin();
  return reply_ok_end();
}

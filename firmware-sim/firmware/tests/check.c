#include "check.h"

#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

static int failures;
static char note[300];

void check_fail(const char *file, int line, const char *format, ...) {
  failures++;
  if (failures > 10) {
    return; /* ten of one test say enough */
  }
  va_list values;
  va_start(values, format);
  fprintf(stderr, "  %s:%d: ", file, line);
  vfprintf(stderr, format, values);
  fputc('\n', stderr);
  va_end(values);
}

bool check_failed(void) { return failures > 0; }

void check_note(const char *format, ...) {
  va_list values;
  va_start(values, format);
  vsnprintf(note, sizeof note, format, values);
  va_end(values);
}

int check_run(const struct test *tests) {
  int bad = 0;
  for (; tests->behaviour != NULL; tests++) {
    failures = 0;
    note[0] = '\0';
    tests->run();
    printf("%s: %s%s%s\n", failures == 0 ? "ok" : "FAILED", tests->behaviour, note[0] ? ": " : "", note);
    fflush(stdout);
    bad += failures != 0;
  }
  return bad;
}

/* Runs the core's tests: one line each, exit status 1 when one failed. Arguments: the folder of vectors. */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "talk.h"

static int failures;
static char note[200];

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

static int run(const struct test *tests) {
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

const char *vectors_folder;

int main(int count, char **arguments) {
  if (count != 2) {
    fprintf(stderr, "usage: %s <folder of protocol vectors>\n", arguments[0]);
    return 2;
  }
  vectors_folder = arguments[1];
  int bad = run(vector_tests) + run(dialogue_tests) + run(wave_tests) + run(recorder_tests) +
            run(link_tests) + run(keep_tests) + run(halt_tests) + run(panel_tests);
  return bad == 0 ? 0 : 1;
}

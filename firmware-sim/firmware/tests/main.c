/* Runs the core's tests: one line each, exit status 1 when one failed. Arguments: the folder of vectors. */
#include <stdio.h>

#include "check.h"
#include "talk.h"

const char *vectors_folder;

int main(int count, char **arguments) {
  if (count != 2) {
    fprintf(stderr, "usage: %s <folder of protocol vectors>\n", arguments[0]);
    return 2;
  }
  vectors_folder = arguments[1];
  int bad = check_run(vector_tests) + check_run(dialogue_tests) + check_run(wave_tests) + check_run(recorder_tests) +
            check_run(link_tests) + check_run(keep_tests) + check_run(halt_tests) + check_run(panel_tests);
  return bad == 0 ? 0 : 1;
}

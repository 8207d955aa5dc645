/* A test is a function with a behaviour for a name; a failed check is told with its place and its values. */
#ifndef CHECK_H
#define CHECK_H

#include <stdbool.h>

struct test {
  const char *behaviour;
  void (*run)(void);
};

/* Lists of tests, each ended by a NULL. */
extern const struct test vector_tests[], dialogue_tests[], wave_tests[], recorder_tests[], link_tests[],
    keep_tests[], halt_tests[], panel_tests[];

/* Runs each and prints one line for it; how many failed. */
int check_run(const struct test *tests);

/* Marks the running test as failed and says why; printf form. */
void check_fail(const char *file, int line, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
bool check_failed(void);
/* Said beside the name of a test that passes; printf form. */
void check_note(const char *format, ...) __attribute__((format(printf, 1, 2)));

#define CHECK(condition, ...)                    \
  do {                                           \
    if (!(condition)) {                          \
      check_fail(__FILE__, __LINE__, __VA_ARGS__); \
    }                                            \
  } while (0)

#endif

/* The step of the model against closed forms, and files that cannot be used. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "check.h"
#include "model.h"

static struct model m;

static const char head[] =
    "conewise-model 1\ntick_seconds 6.4e-5\ndrive 512 0.01\nlimits 1e9 1e9\ncodes 1024\nnoise_codes 0\n";

static bool read_text(const char *text, const char **why) {
  char path[] = "/tmp/conewise-model-XXXXXX";
  int file = mkstemp(path);
  FILE *out = file < 0 ? NULL : fdopen(file, "w");
  if (out == NULL) {
    check_fail(__FILE__, __LINE__, "no temporary file");
    return false;
  }
  fputs(text, out);
  fclose(out);
  bool good = model_read(&m, path, why);
  unlink(path);
  return good;
}

/* One state, a low pass: x[n+1] = a x[n] + (1 - a) u. From rest after n ticks of a held 1 V: 1 - a^n. */
static void a_low_pass_answers_a_step_as_its_closed_form(void) {
  char text[2000];
  const char *why = "";
  snprintf(text, sizeof text,
           "%sstates 1\ninputs 2\nsource 0 0 0\nchannel 512 100\nchannel 500 10\nchannel 0 0\nbends 0\nx 0\n"
           "A 0.9\nB 0.1 0\nC 1\nC 1\nC 0\nC 0\nC 0\nD 0 0\nD 0 0\nD 0 0\nD 0 0\nD 0 0\n",
           head);
  bool good = read_text(text, &why);
  CHECK(good, "%s", why);
  for (int n = 1; good && n <= 100; n++) {
    model_tick(&m, 612); /* 100 steps of 0.01 V */
    double y = 1 - pow(0.9, n);
    CHECK(fabs(m.x[0] - y) < 1e-12, "tick %d: %g, not %g", n, m.x[0], y);
    CHECK(model_convert(&m, 0) == (int)rint(512 + 100 * y), "tick %d: code %d", n, model_convert(&m, 0));
  }
}

static void sources_are_sines_of_their_frequency(void) {
  char text[2000];
  const char *why = "";
  snprintf(text, sizeof text,
           "%sstates 0\ninputs 2\nsource 0.25 2 50\nchannel 512 100\nchannel 0 0\nchannel 0 0\nbends 0\nx\n"
           "C\nC\nC\nC\nC\nD 0 1\nD 0 0\nD 0 0\nD 0 0\nD 0 0\n",
           head);
  bool good = read_text(text, &why);
  CHECK(good, "%s", why);
  for (int n = 0; good && n < 1000; n++) {
    model_tick(&m, 512);
    double volt = 0.25 + 2 * sin(2 * M_PI * 50 * n * 6.4e-5);
    CHECK(model_convert(&m, 0) == (int)rint(512 + 100 * volt), "tick %d: code %d", n, model_convert(&m, 0));
  }
}

static void codes_stop_at_the_ends_of_the_converter(void) {
  model_resistor(&m, 8);
  m.d[0][0] = 1000;
  model_tick(&m, 1023);
  CHECK(model_convert(&m, 0) == 1023, "code %d", model_convert(&m, 0));
  model_tick(&m, 0);
  CHECK(model_convert(&m, 0) == 0, "code %d", model_convert(&m, 0));
}

static void noise_has_the_deviation_asked_for(void) {
  model_resistor(&m, 8);
  m.noise_codes = 3;
  double sum = 0;
  double squares = 0;
  const int count = 20000;
  for (int i = 0; i < count; i++) {
    double code = model_convert(&m, 2);
    sum += code - 512;
    squares += (code - 512) * (code - 512);
  }
  /* Rounding adds a variance of 1/12; the estimate's own deviation is sigma / sqrt(2 n) = 0.015. */
  double deviation = sqrt(squares / count - 1.0 / 12);
  CHECK(fabs(deviation - 3) < 0.06 && fabs(sum / count) < 0.1, "deviation %g, mean %g", deviation, sum / count);
}

static void files_that_cannot_be_used_are_told_by_line(void) {
  static const struct {
    const char *rest;
    const char *says;
  } cases[] = {
      {"states 1\n", "line 7: the file ends too early"},
      {"states 1.5\n", "line 7: states is 1.5, but must be a whole number from 0 to 200"},
      {"states 201\n", "line 7: states is 201"},
      {"states x\n", "line 7: number 1 of 1 after \"states\" is missing or not finite"},
      {"states nan\n", "is missing or not finite"},
      {"states 1 2\n", "line 7: more than 1 numbers after \"states\""},
      {"inputs 1\n", "line 7: \"states\" and 1 numbers are due here"},
      {"states 0\ninputs 0\n", "line 8: inputs is 0"},
      {"states 0\ninputs 1\nchannel 1 2\nchannel 1\n", "line 10: number 2 of 2"},
      {"states 0\ninputs 1\nchannel 1 2\nchannel 1 2\nchannel 1 2\nbends 5\n", "bends must be 0 or as many as codes"},
  };
  for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
    char text[2000];
    const char *why = "";
    snprintf(text, sizeof text, "%s%s", head, cases[i].rest);
    CHECK(!read_text(text, &why), "case %zu was taken", i);
    CHECK(strstr(why, cases[i].says) != NULL, "case %zu: %s", i, why);
  }
  const char *why = "";
  CHECK(!model_read(&m, "/nowhere/model.txt", &why) && strstr(why, "cannot be read") != NULL, "%s", why);
  CHECK(!read_text("conewise-model 2\n", &why) && strstr(why, "conewise-model is 2") != NULL, "%s", why);
  CHECK(!read_text("", &why), "an empty file was taken");
}

static void passed_limits_are_counted(void) {
  model_resistor(&m, 8);
  m.d[MODEL_CHANNELS][0] = 1;
  m.limit_wanted = 0.5;
  model_tick(&m, 512 + 300);
  CHECK(m.beyond == 0, "0.47 V of 0.5 V is beyond");
  model_tick(&m, 512 + 330);
  CHECK(m.beyond == 1, "0.52 V of 0.5 V is not beyond");
}

const struct test model_tests[] = {
    {"a low pass answers a step as its closed form", a_low_pass_answers_a_step_as_its_closed_form},
    {"sources are sines of their frequency", sources_are_sines_of_their_frequency},
    {"codes stop at the ends of the converter", codes_stop_at_the_ends_of_the_converter},
    {"noise has the deviation asked for", noise_has_the_deviation_asked_for},
    {"model files that cannot be used are told by line", files_that_cannot_be_used_are_told_by_line},
    {"ticks beyond the model's limits are counted", passed_limits_are_counted},
    {NULL, NULL}};

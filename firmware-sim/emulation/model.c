#include "model.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char reason[300];

struct reader {
  FILE *in;
  const char *path;
  int line;
  char *text;
  size_t room;
};

static bool fail(const struct reader *r, const char *what) {
  snprintf(reason, sizeof reason, "%s, line %d: %s.", r->path, r->line, what);
  return false;
}

/* The next line that holds something, "#" comments left out. */
static bool next_line(struct reader *r) {
  while (getline(&r->text, &r->room, r->in) >= 0) {
    r->line++;
    r->text[strcspn(r->text, "#\r\n")] = '\0';
    if (strspn(r->text, " ") != strlen(r->text)) {
      return true;
    }
  }
  return fail(r, "the file ends too early");
}

/* A line "word v0 v1 ...": exactly so many finite numbers. */
static bool numbers(struct reader *r, const char *word, double *into, int count) {
  char what[200];
  if (!next_line(r)) {
    return false;
  }
  size_t size = strlen(word);
  if (strncmp(r->text, word, size) != 0 || (r->text[size] != ' ' && r->text[size] != '\0')) {
    snprintf(what, sizeof what, "\"%s\" and %d numbers are due here", word, count);
    return fail(r, what);
  }
  char *at = r->text + size;
  for (int i = 0; i < count; i++) {
    char *end;
    errno = 0;
    into[i] = strtod(at, &end);
    if (end == at || !isfinite(into[i]) || errno == ERANGE) {
      snprintf(what, sizeof what, "number %d of %d after \"%s\" is missing or not finite", i + 1, count, word);
      return fail(r, what);
    }
    at = end;
  }
  if (strspn(at, " ") != strlen(at)) {
    snprintf(what, sizeof what, "more than %d numbers after \"%s\"", count, word);
    return fail(r, what);
  }
  return true;
}

static bool whole(struct reader *r, const char *word, int low, int high, int *into) {
  double value;
  char what[200];
  if (!numbers(r, word, &value, 1)) {
    return false;
  }
  if (value < low || value > high || value != floor(value)) {
    snprintf(what, sizeof what, "%s is %g, but must be a whole number from %d to %d", word, value, low, high);
    return fail(r, what);
  }
  *into = (int)value;
  return true;
}

static bool read_sources(struct reader *r, struct model *m) {
  for (int i = 1; i < m->inputs; i++) {
    double v[3];
    if (!numbers(r, "source", v, 3)) {
      return false;
    }
    m->source[i] = (struct model_source){v[0], v[1], v[2]};
  }
  return true;
}

static bool read_channels(struct reader *r, struct model *m) {
  for (int i = 0; i < MODEL_CHANNELS; i++) {
    double v[2];
    if (!numbers(r, "channel", v, 2)) {
      return false;
    }
    m->channel[i] = (struct model_channel){v[0], v[1]};
  }
  int bends;
  if (!whole(r, "bends", 0, m->codes, &bends)) {
    return false;
  }
  if (bends != 0 && bends != m->codes) {
    return fail(r, "bends must be 0 or as many as codes");
  }
  m->bent = bends != 0;
  return bends == 0 || numbers(r, "bend", m->bend, bends);
}

static bool read_matrices(struct reader *r, struct model *m) {
  bool good = numbers(r, "x", m->x, m->states);
  for (int i = 0; good && i < m->states; i++) {
    good = numbers(r, "A", m->a[i], m->states);
  }
  for (int i = 0; good && i < m->states; i++) {
    good = numbers(r, "B", m->b[i], m->inputs);
  }
  for (int i = 0; good && i < m->outputs; i++) {
    good = numbers(r, "C", m->c[i], m->states);
  }
  for (int i = 0; good && i < m->outputs; i++) {
    good = numbers(r, "D", m->d[i], m->inputs);
  }
  return good;
}

static bool read_all(struct reader *r, struct model *m) {
  double v[2];
  int version;
  if (!whole(r, "conewise-model", 1, 1, &version) || !numbers(r, "tick_seconds", &m->tick_seconds, 1)) {
    return false;
  }
  if (!(m->tick_seconds > 0)) {
    return fail(r, "tick_seconds must be above 0");
  }
  if (!numbers(r, "drive", v, 2)) {
    return false;
  }
  m->drive_mid = v[0];
  m->drive_per_step = v[1];
  if (!numbers(r, "limits", v, 2)) {
    return false;
  }
  m->limit_wanted = v[0];
  m->limit_current = v[1];
  if (!whole(r, "codes", 2, MODEL_CODES_MAX, &m->codes) || !numbers(r, "noise_codes", &m->noise_codes, 1) ||
      !whole(r, "states", 0, MODEL_STATES_MAX, &m->states) || !whole(r, "inputs", 1, MODEL_INPUTS_MAX, &m->inputs)) {
    return false;
  }
  m->outputs = MODEL_CHANNELS + 2;
  return read_sources(r, m) && read_channels(r, m) && read_matrices(r, m);
}

bool model_read(struct model *model, const char *path, const char **why) {
  memset(model, 0, sizeof *model);
  *why = reason;
  struct reader r = {fopen(path, "r"), path, 0, NULL, 0};
  if (r.in == NULL) {
    snprintf(reason, sizeof reason, "%s cannot be read: %s.", path, strerror(errno));
    return false;
  }
  bool good = read_all(&r, model);
  free(r.text);
  fclose(r.in);
  model->random = 88172645463325252ULL;
  return good;
}

void model_resistor(struct model *m, double ohm) {
  const double sense_ohm = 10;
  const double volt_per_code = 5.0 / 1024 / 3;
  memset(m, 0, sizeof *m);
  m->tick_seconds = 1024 / 16e6;
  m->drive_mid = 512;
  m->drive_per_step = 0.8 / 511;
  m->limit_wanted = 1e9;
  m->limit_current = 1e9;
  m->codes = 1024;
  m->inputs = 1;
  m->outputs = MODEL_CHANNELS + 2;
  m->d[0][0] = ohm / (ohm + sense_ohm);
  m->d[1][0] = 1 / (ohm + sense_ohm);
  m->channel[0] = (struct model_channel){512, 1 / volt_per_code};
  m->channel[1] = (struct model_channel){512, sense_ohm / volt_per_code};
  m->channel[2] = (struct model_channel){512, 0};
  m->random = 88172645463325252ULL;
}

static double output(const struct model *m, int which) {
  double y = 0;
  for (int i = 0; i < m->states; i++) {
    y += m->c[which][i] * m->x[i];
  }
  for (int i = 0; i < m->inputs; i++) {
    y += m->d[which][i] * m->u[i];
  }
  return y;
}

void model_tick(struct model *m, uint16_t drive_code) {
  double next[MODEL_STATES_MAX];
  double seconds = (double)m->ticks * m->tick_seconds;
  m->u[0] = (drive_code - m->drive_mid) * m->drive_per_step;
  for (int i = 1; i < m->inputs; i++) {
    const struct model_source *s = &m->source[i];
    m->u[i] = s->steady + s->peak * sin(2 * M_PI * s->frequency_hz * seconds);
  }
  for (int i = 0; i < m->states; i++) {
    double sum = 0;
    for (int j = 0; j < m->states; j++) {
      sum += m->a[i][j] * m->x[j];
    }
    for (int j = 0; j < m->inputs; j++) {
      sum += m->b[i][j] * m->u[j];
    }
    next[i] = sum;
  }
  memcpy(m->x, next, sizeof(double) * (size_t)m->states);
  m->ticks++;
  if (fabs(output(m, MODEL_CHANNELS)) > m->limit_wanted || fabs(output(m, MODEL_CHANNELS + 1)) > m->limit_current) {
    m->beyond++;
  }
}

/* xorshift64 (G. Marsaglia, J. Stat. Soft. 8 (2003)); 53 bits as a fraction in (0, 1). */
static double fraction(struct model *m) {
  m->random ^= m->random << 13;
  m->random ^= m->random >> 7;
  m->random ^= m->random << 17;
  return ((double)(m->random >> 11) + 0.5) / 9007199254740992.0;
}

/* G. E. P. Box and M. E. Muller, Ann. Math. Stat. 29 (1958) 610. */
static double gauss(struct model *m) {
  return sqrt(-2 * log(fraction(m))) * cos(2 * M_PI * fraction(m));
}

static double bend_at(const struct model *m, double code) {
  if (!m->bent) {
    return 0;
  }
  double place = fmin(fmax(code, 0), m->codes - 1.000001);
  int index = (int)place;
  return m->bend[index] + (m->bend[index + 1] - m->bend[index]) * (place - index);
}

uint16_t model_convert(struct model *m, int channel) {
  const struct model_channel *scale = &m->channel[channel];
  double code = scale->offset_code + scale->code_per_unit * output(m, channel);
  code += bend_at(m, code);
  if (m->noise_codes > 0) {
    code += m->noise_codes * gauss(m);
  }
  return (uint16_t)fmin(fmax(rint(code), 0), m->codes - 1);
}

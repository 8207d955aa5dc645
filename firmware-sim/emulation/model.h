/*
 * The analog world as a file of numbers: what lies between the wave output and the converter.
 *
 * Physics is worked out elsewhere (the Java simulator writes such a file); here one linear step a tick is
 * taken: x[n+1] = A x[n] + B u[n], y[n] = C x[n] + D u[n-1], u being held over the tick. README.md gives the
 * form of the file.
 */
#ifndef MODEL_H
#define MODEL_H

#include <stdbool.h>
#include <stdint.h>

#define MODEL_STATES_MAX 200
#define MODEL_INPUTS_MAX 16
#define MODEL_CHANNELS 3
#define MODEL_CODES_MAX 4096

struct model_source { /* an input that nobody drives: steady + peak sin(2 pi f t) */
  double steady;
  double peak;
  double frequency_hz;
};

struct model_channel {
  double offset_code; /* code = offset_code + code_per_unit x output */
  double code_per_unit;
};

struct model {
  double tick_seconds;
  double drive_mid;      /* drive code of zero */
  double drive_per_step; /* first input = (code - drive_mid) x drive_per_step */
  double limit_wanted;   /* beyond these the file's equations do not hold */
  double limit_current;
  double noise_codes;
  int codes;
  int states;
  int inputs;
  int outputs; /* the channels, then the bridge's wanted voltage and current */
  double a[MODEL_STATES_MAX][MODEL_STATES_MAX];
  double b[MODEL_STATES_MAX][MODEL_INPUTS_MAX];
  double c[MODEL_CHANNELS + 2][MODEL_STATES_MAX];
  double d[MODEL_CHANNELS + 2][MODEL_INPUTS_MAX];
  struct model_source source[MODEL_INPUTS_MAX];
  struct model_channel channel[MODEL_CHANNELS];
  bool bent;
  double bend[MODEL_CODES_MAX]; /* departure of the converter from its straight line at each code */

  double x[MODEL_STATES_MAX];
  double u[MODEL_INPUTS_MAX];
  uint64_t ticks;
  uint64_t beyond; /* ticks on which a limit was passed */
  uint64_t random;
};

/* Reads a file. False, with one sentence in *why (for the reader to print), when it cannot be used. */
bool model_read(struct model *model, const char *path, const char **why);

/* A resistor of so many ohms on a jig of 10 ohm and gain 3 without filters: for trials without a file. */
void model_resistor(struct model *model, double ohm);

/* One tick passes, with the drive at this code. */
void model_tick(struct model *model, uint16_t drive_code);

/* The code of a channel as the tick that has passed ends. */
uint16_t model_convert(struct model *model, int channel);

#endif

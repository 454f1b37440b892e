/*
 * A LADSPA filter that behaves like a pickup with its load behind a series resistor. The left
 * output is the driven end as it came in; the right output is the voltage at the jack,
 *
 *   Z / (Rs + Z),  Z = (R + jwL) // 1/(jwC) // Rin.
 *
 * The network's exact response is turned into an impulse response at the server's sample rate;
 * above 20.5 kHz it falls smoothly to nothing, so that nothing folds. Both outputs wait for the
 * part of the response that comes before the impulse because the band ends.
 */
#include <complex.h>
#include <ladspa.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SERIES 100e3
#define RESISTANCE 7000.0
#define INDUCTANCE 3.0
#define CAPACITANCE 600e-12
#define INPUT 1e6

#define TAPS 1024
#define AHEAD 128

enum { IN_LEFT, IN_RIGHT, OUT_LEFT, OUT_RIGHT, PORTS };

struct filter {
  LADSPA_Data *port[PORTS];
  double impulse[TAPS];
  double past[TAPS];
  int at;
};

static double complex transfer(double hz) {
  double complex s = I * 2 * M_PI * hz;
  double complex y = 1 / (RESISTANCE + s * INDUCTANCE) + s * CAPACITANCE + 1 / INPUT;
  return 1 / (1 + SERIES * y);
}

static LADSPA_Handle begin(const LADSPA_Descriptor *d, unsigned long rate) {
  struct filter *f = calloc(1, sizeof *f);
  (void) d;
  for (int k = 0; f && k <= TAPS / 2; k++) {
    double hz = (double) k * rate / TAPS;
    double over = (hz - 20500) / (0.49 * rate - 20500);
    double pass = over <= 0 ? 1 : over >= 1 ? 0 : 0.5 + 0.5 * cos(M_PI * over);
    double complex h = pass * transfer(hz) * (k == 0 || k == TAPS / 2 ? 1 : 2) / TAPS;
    for (int n = 0; n < TAPS; n++) {
      f->impulse[n] += creal(h * cexp(I * 2 * M_PI * k * (n - AHEAD) / TAPS));
    }
  }
  return f;
}

static void connect(LADSPA_Handle h, unsigned long port, LADSPA_Data *data) {
  ((struct filter *) h)->port[port] = data;
}

static void run(LADSPA_Handle h, unsigned long count) {
  struct filter *f = h;
  for (unsigned long i = 0; i < count; i++) {
    double sum = 0;
    f->past[f->at] = f->port[IN_LEFT][i];
    for (int k = 0, p = f->at; k < TAPS; k++) {
      sum += f->impulse[k] * f->past[p];
      p = p == 0 ? TAPS - 1 : p - 1;
    }
    f->port[OUT_LEFT][i] = (LADSPA_Data) f->past[(f->at - AHEAD + TAPS) % TAPS];
    f->port[OUT_RIGHT][i] = (LADSPA_Data) sum;
    f->at = (f->at + 1) % TAPS;
  }
}

static void end(LADSPA_Handle h) {
  free(h);
}

static const LADSPA_PortDescriptor kinds[PORTS] = {
  LADSPA_PORT_INPUT | LADSPA_PORT_AUDIO, LADSPA_PORT_INPUT | LADSPA_PORT_AUDIO,
  LADSPA_PORT_OUTPUT | LADSPA_PORT_AUDIO, LADSPA_PORT_OUTPUT | LADSPA_PORT_AUDIO};
static const char *const names[PORTS] = {"in left", "in right", "out left", "out right"};
static const LADSPA_PortRangeHint hints[PORTS];

static const LADSPA_Descriptor descriptor = {
  .UniqueID = 1, .Label = "pickup", .Name = "Pickup with its load", .Maker = "Trebleproof",
  .Copyright = "GPL-3.0-or-later", .PortCount = PORTS, .PortDescriptors = kinds,
  .PortNames = names, .PortRangeHints = hints, .instantiate = begin, .connect_port = connect,
  .run = run, .cleanup = end};

const LADSPA_Descriptor *ladspa_descriptor(unsigned long index) {
  return index == 0 ? &descriptor : NULL;
}

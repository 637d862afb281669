/*
 * The transient model of the ram, written once more in C as a yardstick for the speed of src/ram/transient-system.ts:
 * the same scheme step by step, sliding windows, friction, cavities, both valves, a constant level and delivery head.
 * It prints node-steps, the seconds they took, the water taken and delivered (m in the drive pipe).
 *
 * Use: ram-transient REACHES STEPS
 */
#define _DEFAULT_SOURCE
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define ROOM 4096
static const double GRAVITY = 9.80665;

/* The ram of the worked example in tests/ram/transient-example.test.ts. */
static const double bore = 0.025, length = 8, wave_speed = 1400, darcy = 0.03, entrance_loss = 0.5, bend_loss = 1;
static const double waste_loss = 6, check_loss = 4, check_lag = 0.003, fall_head = 2.4, delivery_head = 15;
static const double weight_head = 0.3, stroke = 0.005, valve_gravity = 8.5, vapour_head = -10.2;

typedef struct {
  int nodes, down_at, up_at, first_cavity;
  double area, impedance, dt, drag, highest_floor;
  double *down, *up, *cavities, *twice_floors;
} Pipe;

typedef struct {
  double pump_head, pump_velocity, inlet_velocity, check_velocity, waste_velocity;
  double waste, check, opening, valve_speed, since_turn, cavity;
  int check_open, boiling;
} Pump;

static double signed_root(double z) { return z < 0 ? -sqrt(-z) : sqrt(z); }
static double squared(double u) { return u * fabs(u); }
static double starting_root(double z, double linear) {
  double sum = linear + sqrt(linear * linear + 4 * fabs(z));
  return sum > 0 ? 2 * z / sum : 0;
}

static int sweep(double *restrict down, double *restrict up, int nodes, double drag, double least, double ease) {
  for (int i = 0; i < nodes; i++) {
    double d = down[i], u = up[i];
    if (d + u < least) return i;
    double twice = d - u, loss = drag * twice * fabs(twice);
    down[i] = d - loss;
    up[i] = u + loss;
    least -= ease;
  }
  return nodes;
}

static void sweep_with_cavities(Pipe *p, int first) {
  double grow = p->area * p->dt / p->impedance;
  int first_open = p->nodes;
  for (int i = first; i < p->nodes; i++) {
    double d = p->down[p->down_at + i], u = p->up[p->up_at + i], floor = p->twice_floors[i];
    if (i > 0 && i < p->nodes - 1 && (p->cavities[i] > 0 || d + u < floor)) {
      double volume = p->cavities[i] + grow * (floor - d - u);
      p->cavities[i] = volume > 0 ? volume : 0;
      if (volume > 0) {
        if (i < first_open) first_open = i;
        p->down[p->down_at + i] = floor - u - p->drag * (floor - 2 * u) * fabs(floor - 2 * u);
        p->up[p->up_at + i] = floor - d + p->drag * (2 * d - floor) * fabs(2 * d - floor);
        continue;
      }
    }
    double twice = d - u, loss = p->drag * twice * fabs(twice);
    p->down[p->down_at + i] = d - loss;
    p->up[p->up_at + i] = u + loss;
  }
  p->first_cavity = first_open;
}

static void advance(Pipe *p) {
  int first = sweep(p->down + p->down_at, p->up + p->up_at, p->first_cavity, p->drag, 2 * p->highest_floor, 2 * fall_head / (p->nodes - 1));
  if (first < p->nodes) sweep_with_cavities(p, first);
  if (p->down_at == 0) {
    memcpy(p->down + ROOM, p->down, sizeof(double) * p->nodes);
    p->down_at = ROOM;
  }
  if (p->up_at == ROOM) {
    memcpy(p->up, p->up + ROOM, sizeof(double) * p->nodes);
    p->up_at = 0;
  }
  p->down_at--;
  p->up_at++;
}

static double newton(double z, double near, double least, double most, double b, double far, double offset) {
  double linear = b * near, u = fmin(most, fmax(least, starting_root(z, linear)));
  for (int step = 0; step < 40; step++) {
    double size = fabs(u), root = signed_root(u * size + offset);
    double error = z - u * size - linear * u - b * far * root;
    double slope = 2 * size + linear + b * far * size / fabs(root);
    double next = fmin(most, fmax(least, u + error / slope)), change = next - u;
    u = next;
    if (fabs(change) <= 1e-13 * (1 + size)) break;
  }
  return u;
}

static double head_between(double c, double b, double waste, double check) {
  double half = delivery_head / 2, edge = sqrt(half);
  if (c - half > b * (waste - check) * edge)
    return delivery_head + squared(newton(c - delivery_head, check, -edge, INFINITY, b, waste, delivery_head));
  return squared(newton(c, waste, -INFINITY, edge, b, check, -delivery_head));
}

static void settle(Pump *s, double c, double b, double head) {
  s->pump_head = head;
  s->pump_velocity = (c - head) / b;
  s->waste_velocity = s->waste == 0 ? 0 : s->waste * signed_root(head);
  s->check_velocity = s->check == 0 ? 0 : s->check * signed_root(head - delivery_head);
}

static void solve(Pump *s, double c, double b) {
  if (s->check > 0 && s->waste > 0) {
    settle(s, c, b, head_between(c, b, s->waste, s->check));
    return;
  }
  int waste_only = s->check == 0;
  double conductance = waste_only ? s->waste : s->check, beyond = waste_only ? 0 : delivery_head;
  double u = starting_root(c - beyond, b * conductance), velocity = conductance * u;
  s->pump_head = beyond + squared(u);
  s->pump_velocity = velocity;
  s->waste_velocity = waste_only ? velocity : 0;
  s->check_velocity = waste_only ? 0 : velocity;
}

static void step_pump(Pipe *p, Pump *s, double waste_open, double check_full) {
  double c = p->down[p->down_at + p->nodes - 1], b = p->impedance;
  s->waste = waste_open * s->opening;
  s->check = s->check_open ? check_full : 0;
  if (s->boiling) settle(s, c, b, vapour_head);
  else solve(s, c, b);
  if (!s->check_open && s->pump_head > delivery_head) {
    s->check_open = 1;
    s->since_turn = 0;
    s->check = check_full;
    solve(s, c, b);
  }
  if (s->pump_head < vapour_head) {
    s->boiling = 1;
    settle(s, c, b, vapour_head);
  }
  p->up[p->up_at + p->nodes - 1] = 2 * s->pump_head - c;
  if (s->boiling) {
    s->cavity += (s->waste_velocity + s->check_velocity - s->pump_velocity) * p->area * p->dt;
    if (s->cavity <= 0) s->cavity = s->boiling = 0;
  }
  if (!s->check_open) return;
  s->since_turn = s->pump_head >= delivery_head ? 0 : s->since_turn + p->dt;
  if (s->since_turn > 0 && s->since_turn >= check_lag) s->check_open = 0;
}

static void move_waste_valve(Pump *s, double dt) {
  double speed = s->valve_speed + valve_gravity * dt - s->pump_head * (valve_gravity * dt / weight_head);
  double opening = s->opening + speed * (dt / stroke);
  int between = opening > 0 && opening < 1;
  s->valve_speed = between ? speed : 0;
  s->opening = between ? opening : opening <= 0 ? 0 : 1;
}

static void step_inlet(Pipe *p, Pump *s, double four_k) {
  double arriving = p->up[p->up_at], z = fall_head - arriving, b = p->impedance;
  s->inlet_velocity = 2 * z / (b + sqrt(b * b + four_k * fabs(z)));
  p->down[p->down_at] = arriving + 2 * b * s->inlet_velocity;
}

static Pipe new_pipe(int reaches) {
  Pipe p = {.nodes = reaches + 1, .down_at = ROOM, .first_cavity = reaches + 1};
  p.area = M_PI * bore * bore / 4;
  p.impedance = wave_speed / GRAVITY;
  p.dt = length / reaches / wave_speed;
  p.drag = darcy * (length / reaches) / (2 * GRAVITY * bore) / (4 * p.impedance * p.impedance);
  p.highest_floor = vapour_head + fall_head;
  p.down = malloc(sizeof(double) * (p.nodes + ROOM));
  p.up = malloc(sizeof(double) * (p.nodes + ROOM));
  p.cavities = calloc(p.nodes, sizeof(double));
  p.twice_floors = calloc(p.nodes, sizeof(double));
  for (int i = 0; i < p.nodes + ROOM; i++) p.down[i] = p.up[i] = fall_head;
  for (int i = 0; i < p.nodes; i++) p.twice_floors[i] = 2 * (vapour_head + fall_head * (1 - (double)i / reaches));
  return p;
}

int main(int argc, char **argv) {
  if (argc < 3) return 2;
  int reaches = atoi(argv[1]);
  long steps = atol(argv[2]);
  Pipe p = new_pipe(reaches);
  Pump s = {.pump_head = fall_head, .opening = 1};
  double waste_open = sqrt(2 * GRAVITY / waste_loss), check_full = sqrt(2 * GRAVITY / check_loss);
  double four_k = 4 * (entrance_loss + bend_loss) / (2 * GRAVITY), taken = 0, delivered = 0;
  struct timespec from, to;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &from);
  for (long i = 0; i < steps; i++) {
    advance(&p);
    step_inlet(&p, &s, four_k);
    step_pump(&p, &s, waste_open, check_full);
    move_waste_valve(&s, p.dt);
    taken += s.inlet_velocity * p.dt;
    delivered += s.check_velocity * p.dt;
  }
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &to);
  double seconds = (to.tv_sec - from.tv_sec) + 1e-9 * (to.tv_nsec - from.tv_nsec);
  printf("%.17g %.17g %.17g %.17g\n", (double)steps * p.nodes, seconds, taken, delivered);
  return 0;
}

/**
 * Patterns of the materials, in mm of the material itself, so that cloth shows its true warp and core its true cells. Near, they
 * are drawn at true scale; further off the cell doubles each time it would fall under a few pixels, the two sizes fading
 * into each other. `PATTERN`: 0 weave, 1 ticks, 2 cells, 3 hatch.
 */
export const patternShader = /* glsl */ `
float inkAt(float distance, float pixel) {
  return 1.0 - smoothstep(0.35, 1.1, distance / pixel);
}

// Bundles of three tows that pass over and under each other.
float weave(vec2 at, float cell, float pixel) {
  vec2 c = at / cell;
  vec2 f = fract(c);
  bool warp = mod(floor(c.x) + floor(c.y), 2.0) < 0.5;
  float across = warp ? f.y : f.x;
  float along = warp ? f.x : f.y;
  float tows = min(abs(across - 0.33), abs(across - 0.67)) * cell;
  float rim = min(across, 1.0 - across) * cell;
  float dive = pow(abs(2.0 * along - 1.0), 4.0);
  return max(0.75 * inkAt(tows, pixel), max(inkAt(rim, pixel) * 0.55, 0.35 * dive));
}

float ticks(vec2 at, float cell, float pixel) {
  return inkAt(abs(fract(at.x / cell) - 0.5) * cell, pixel);
}

float cells(vec2 at, float cell, float pixel) {
  vec2 p = at / cell;
  const vec2 s = vec2(1.0, 1.7320508);
  vec2 a = mod(p, s) - 0.5 * s;
  vec2 b = mod(p - 0.5 * s, s) - 0.5 * s;
  vec2 q = abs(dot(a, a) < dot(b, b) ? a : b);
  float inside = max(q.x, dot(q, vec2(0.5, 0.8660254)));
  return inkAt((0.5 - inside) * cell, pixel);
}

float hatch(vec2 at, float cell, float pixel) {
  float line = abs(fract((at.x + at.y) / cell) - 0.5) * cell * 0.7071;
  return inkAt(line, pixel);
}

float patternOf(vec2 at, float cell, float pixel) {
#if PATTERN == 0
  return weave(at, cell, pixel);
#elif PATTERN == 1
  return ticks(at, cell, pixel);
#elif PATTERN == 2
  return cells(at, cell, pixel);
#else
  return hatch(at, cell, pixel);
#endif
}

float material(vec2 at) {
#if PATTERN == 0
  const float cell = 5.0;
  const float least = 11.0;
#elif PATTERN == 1
  const float cell = 25.0;
  const float least = 7.0;
#elif PATTERN == 2
  const float cell = 9.0;
  const float least = 9.0;
#else
  const float cell = 12.0;
  const float least = 7.0;
#endif
  float pixel = max(max(length(dFdx(at)), length(dFdy(at))), 1e-4);
  float octave = max(log2(least * pixel / cell), 0.0);
  float near = cell * exp2(floor(octave));
  float fade = smoothstep(0.55, 1.0, fract(octave));
  return mix(patternOf(at, near, pixel), patternOf(at, 2.0 * near, pixel), fade);
}
`;

// The block, the way and the tool in three dimensions, by WebGL 2: heights as a texture, light from the slopes. Z is up, lengths mm.
const BLOCK = `#version 300 es
uniform highp sampler2D heights; uniform ivec2 size; uniform vec4 at; uniform mat4 view; out vec3 place;
void main() {
  int wide = size.x + 2; ivec2 i = ivec2(gl_VertexID % wide, gl_VertexID / wide) - 1;
  ivec2 c = clamp(i, ivec2(0), size - 1);
  bool edge = any(notEqual(i, c));
  float z = edge ? 0.0 : max(0.0, texelFetch(heights, c, 0).r);
  place = vec3(at.xy + (vec2(c) + 0.5) * at.z, z);
  gl_Position = view * vec4(place, 1.0);
}`;
const LIT = `#version 300 es
precision highp float; in vec3 place; uniform vec3 raw; uniform vec3 cut; uniform float top; uniform float clip; out vec4 colour;
void main() {
  if (place.y < clip) discard;
  vec3 n = normalize(cross(dFdx(place), dFdy(place)));
  float light = 0.4 + 0.45 * abs(n.z) + 0.25 * abs(dot(n.xy, vec2(0.45, 0.9)));
  float deep = clamp(place.z / top, 0.0, 1.0);
  vec3 base = place.z > top - 0.01 ? raw : mix(cut * 0.4, cut, deep * deep * deep);
  colour = vec4((place.z < 0.02 ? base * 0.35 : base) * light, 1.0);
}`;
const FACE = `#version 300 es
uniform highp sampler2D heights; uniform ivec2 size; uniform vec4 at; uniform float clip; uniform mat4 view;
void main() {
  int c = gl_VertexID / 2; int r = clamp(int((clip - at.y) / at.z), 0, size.y - 1);
  float z = (gl_VertexID & 1) > 0 ? max(0.0, texelFetch(heights, ivec2(c, r), 0).r) : 0.0;
  gl_Position = view * vec4(at.x + (float(c) + 0.5) * at.z, clip, z, 1.0);
}`;
const SHEET = `#version 300 es
uniform highp sampler2D heights; uniform ivec2 size; uniform vec4 at; uniform mat4 view; out vec3 place; out float here;
void main() {
  int wide = size.x + 2; ivec2 c = clamp(ivec2(gl_VertexID % wide, gl_VertexID / wide) - 1, ivec2(0), size - 1);
  float z = texelFetch(heights, c, 0).r;
  here = z < -500.0 ? 0.0 : 1.0;
  place = vec3(at.xy + (vec2(c) + 0.5) * at.z, max(z, 0.0));
  gl_Position = view * vec4(place, 1.0);
}`;
const PLASTIC = `#version 300 es
precision highp float; in vec3 place; in float here; uniform vec3 shell; uniform float clip; out vec4 colour;
void main() {
  if (here < 0.999 || place.y < clip) discard;
  vec3 n = normalize(cross(dFdx(place), dFdy(place)));
  colour = vec4(shell * (0.55 + 0.45 * abs(n.z)), 0.55);
}`;
const PLAIN = `#version 300 es
precision highp float; uniform vec4 metal; out vec4 colour; void main() { colour = metal; }`;
const WAY = `#version 300 es
layout(location = 0) in vec4 p; uniform mat4 view; uniform vec3 feed; uniform vec3 rapid; flat out vec3 shade;
void main() { shade = p.w > 0.5 ? feed : rapid; gl_Position = view * vec4(p.xyz, 1.0); }`;
const FLAT = `#version 300 es
precision highp float; flat in vec3 shade; out vec4 colour; void main() { colour = vec4(shade, 1.0); }`;
const TOOL = `#version 300 es
layout(location = 0) in vec3 p; uniform mat4 view; uniform vec3 tip; uniform vec3 shape; out vec3 n;
void main() { n = vec3(p.xy, 0.0); gl_Position = view * vec4(tip + vec3(p.xy * shape.x, mix(shape.y, shape.z, p.z)), 1.0); }`;
const METAL = `#version 300 es
precision highp float; in vec3 n; uniform vec4 metal; out vec4 colour;
void main() { colour = vec4(metal.rgb * (0.6 + 0.4 * abs(dot(normalize(n + vec3(0.001)), vec3(-0.6, -0.8, 0.0)))), metal.a); }`;

const SIDES = 32;

/** Null where the browser has no WebGL 2. */
export function makeScene(canvas) {
  const gl = canvas.getContext("webgl2", { antialias: true });
  if (!gl) return null;
  const program = (vertex, fragment) => {
    const p = gl.createProgram();
    for (const [type, source] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
      const s = gl.createShader(type);
      gl.shaderSource(s, source);
      gl.compileShader(s);
      if (!gl.getShaderParameter(s, gl.COMPILE_STATUS)) throw new Error(gl.getShaderInfoLog(s));
      gl.attachShader(p, s);
    }
    gl.linkProgram(p);
    return { p, u: (name) => gl.getUniformLocation(p, name) };
  };
  const block = program(BLOCK, LIT);
  const way = program(WAY, FLAT);
  const tool = program(TOOL, METAL);
  const face = program(FACE, PLAIN);
  const sheet = program(SHEET, PLASTIC);
  const empty = gl.createVertexArray();
  const faces = gl.createBuffer();
  const texture = gl.createTexture();
  const shellTexture = gl.createTexture();
  const [lineArray, lineBuffer] = points(4);
  const [roundArray, roundBuffer] = points(3);
  const round = [];
  for (let i = 0; i < SIDES; i++) {
    const [a, b] = [i, i + 1].map((k) => (2 * Math.PI * k) / SIDES);
    const [p, q] = [[Math.cos(a), Math.sin(a)], [Math.cos(b), Math.sin(b)]];
    /** @type {[number[], number][]} */
    const corners = [[p, 0], [q, 0], [q, 1], [p, 0], [q, 1], [p, 1], [p, 0], [q, 0], [[0, 0], 0], [p, 1], [q, 1], [[0, 0], 1]];
    for (const [v, z] of corners) round.push(...v, z);
  }
  gl.bindBuffer(gl.ARRAY_BUFFER, roundBuffer);
  gl.bufferData(gl.ARRAY_BUFFER, new Float32Array(round), gl.STATIC_DRAW);
  const state = { size: null, at: null, top: 1, lines: 0, faces: 0, shell: false };

  function points(width) {
    const array = gl.createVertexArray();
    const buffer = gl.createBuffer();
    gl.bindVertexArray(array);
    gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
    gl.enableVertexAttribArray(0);
    gl.vertexAttribPointer(0, width, gl.FLOAT, false, 0, 0);
    gl.bindVertexArray(null);
    return [array, buffer];
  }

  return {
    /** The judge's heights: columns, rows, cell, raw top, least X and Y, then the cells; after them the shell's, where it lies on the block. */
    setBlock(numbers) {
      const [columns, rows, cell, top, x, y] = numbers;
      const cells = columns * rows;
      gl.pixelStorei(gl.UNPACK_ALIGNMENT, 4);
      const fill = (to, from) => {
        gl.bindTexture(gl.TEXTURE_2D, to);
        gl.texImage2D(gl.TEXTURE_2D, 0, gl.R32F, columns, rows, 0, gl.RED, gl.FLOAT, numbers.subarray(from, from + cells));
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.NEAREST);
        gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MAG_FILTER, gl.NEAREST);
      };
      fill(texture, 6);
      state.shell = numbers.length >= 6 + 2 * cells;
      if (state.shell) fill(shellTexture, 6 + cells);
      Object.assign(state, { at: [x, y, cell, 0], top });
      if (state.size?.[0] === columns && state.size[1] === rows) return;
      state.size = [columns, rows];
      const [w, h] = [columns + 2, rows + 2];
      const index = new Uint32Array((w - 1) * (h - 1) * 6);
      let n = 0;
      for (let r = 0; r < h - 1; r++) {
        for (let c = 0; c < w - 1; c++) {
          const a = r * w + c;
          index.set([a, a + 1, a + w, a + 1, a + w + 1, a + w], n);
          n += 6;
        }
      }
      gl.bindVertexArray(empty);
      gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, faces);
      gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, index, gl.STATIC_DRAW);
      gl.bindVertexArray(null);
      state.faces = n;
    },
    /** Pairs of points x, y, z and 1 for a cut, 0 for a rapid. */
    setWay(numbers) {
      gl.bindBuffer(gl.ARRAY_BUFFER, lineBuffer);
      gl.bufferData(gl.ARRAY_BUFFER, numbers, gl.STATIC_DRAW);
    },
    draw(view, { tip, cutter, from, drawn, colours, clip, jackets, jacket, shell }) {
      const dpr = Math.min(2, devicePixelRatio);
      const [w, h] = [Math.round(canvas.clientWidth * dpr), Math.round(canvas.clientHeight * dpr)];
      if (canvas.width !== w || canvas.height !== h) Object.assign(canvas, { width: w, height: h });
      gl.viewport(0, 0, w, h);
      gl.clearColor(...colours.paper, 1);
      gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
      gl.enable(gl.DEPTH_TEST);
      if (state.size) {
        gl.useProgram(block.p);
        gl.bindVertexArray(empty);
        gl.uniformMatrix4fv(block.u("view"), false, view);
        gl.uniform2i(block.u("size"), ...state.size);
        gl.uniform4f(block.u("at"), ...state.at);
        gl.uniform1f(block.u("top"), state.top);
        gl.uniform3f(block.u("raw"), ...colours.raw);
        gl.uniform3f(block.u("cut"), ...colours.cut);
        gl.uniform1f(block.u("clip"), clip ?? -1e9);
        gl.bindTexture(gl.TEXTURE_2D, texture);
        gl.drawElements(gl.TRIANGLES, state.faces, gl.UNSIGNED_INT, 0);
        if (clip !== null) {
          gl.useProgram(face.p);
          gl.uniformMatrix4fv(face.u("view"), false, view);
          gl.uniform2i(face.u("size"), ...state.size);
          gl.uniform4f(face.u("at"), ...state.at);
          gl.uniform1f(face.u("clip"), clip);
          gl.uniform4f(face.u("metal"), ...colours.face, 1);
          gl.drawArrays(gl.TRIANGLE_STRIP, 0, 2 * state.size[0]);
        }
      }
      gl.useProgram(way.p);
      gl.bindVertexArray(lineArray);
      gl.uniformMatrix4fv(way.u("view"), false, view);
      gl.uniform3f(way.u("feed"), ...colours.feed);
      gl.uniform3f(way.u("rapid"), ...colours.rapid);
      if (drawn > from) gl.drawArrays(gl.LINES, from, drawn - from);
      gl.enable(gl.BLEND);
      gl.blendFunc(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA);
      gl.useProgram(tool.p);
      gl.bindVertexArray(roundArray);
      gl.uniformMatrix4fv(tool.u("view"), false, view);
      if (shell) {
        gl.uniform3f(tool.u("shape"), jacket[0] / 2, 0, jacket[1]);
        gl.uniform4f(tool.u("metal"), ...colours.jacket, 1);
        for (let i = 0; i < jackets.length; i += 2) {
          if (clip !== null && jackets[i + 1] < clip) continue;
          gl.uniform3f(tool.u("tip"), jackets[i], jackets[i + 1], jacket[2]);
          gl.drawArrays(gl.TRIANGLES, 0, round.length / 3);
        }
      }
      if (shell && state.shell) {
        gl.useProgram(sheet.p);
        gl.bindVertexArray(empty);
        gl.uniformMatrix4fv(sheet.u("view"), false, view);
        gl.uniform2i(sheet.u("size"), ...state.size);
        gl.uniform4f(sheet.u("at"), ...state.at);
        gl.uniform3f(sheet.u("shell"), ...colours.shell);
        gl.uniform1f(sheet.u("clip"), clip ?? -1e9);
        gl.bindTexture(gl.TEXTURE_2D, shellTexture);
        gl.drawElements(gl.TRIANGLES, state.faces, gl.UNSIGNED_INT, 0);
      }
      if (!cutter) return void gl.disable(gl.BLEND);
      gl.useProgram(tool.p);
      gl.bindVertexArray(roundArray);
      gl.uniform3f(tool.u("tip"), ...tip);
      const parts = [[cutter.diameter / 2, 0, cutter.fluteLength, 1], [cutter.shankDiameter / 2, cutter.fluteLength, cutter.stickOut, 0.85], [cutter.holderDiameter / 2, cutter.stickOut, cutter.stickOut + 30, 0.22]];
      for (const [radius, from, to, alpha] of parts) {
        if (to <= from) continue;
        gl.uniform3f(tool.u("shape"), radius, from, to);
        gl.uniform4f(tool.u("metal"), ...colours.metal, alpha);
        gl.drawArrays(gl.TRIANGLES, 0, round.length / 3);
      }
      gl.disable(gl.BLEND);
    },
  };
}

/** The view's matrix: from a turn, a tilt (radians), a distance and the point looked at (mm). */
export function look({ turn, tilt, far, at }, aspect) {
  const [ct, st, cp, sp] = [Math.cos(turn), Math.sin(turn), Math.cos(tilt), Math.sin(tilt)];
  const x = [ct, st, 0];
  const z = [st * cp, -ct * cp, sp];
  const y = [z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0]];
  const eye = at.map((v, i) => v + far * z[i]);
  const dot = (a) => -(a[0] * eye[0] + a[1] * eye[1] + a[2] * eye[2]);
  const f = Math.min(1, aspect) / Math.tan(0.35);
  const [near, end] = [far / 50, far * 6];
  const [a, b] = [(near + end) / (near - end), (2 * near * end) / (near - end)];
  const m = [[...x, dot(x)], [...y, dot(y)], [...z, dot(z)]];
  const out = new Float32Array(16);
  for (let c = 0; c < 4; c++) {
    out[4 * c] = (f / aspect) * m[0][c];
    out[4 * c + 1] = f * m[1][c];
    out[4 * c + 2] = a * m[2][c] + (c === 3 ? b : 0);
    out[4 * c + 3] = -m[2][c];
  }
  return out;
}

// A second reader for RS-274 programs, for tests only: gcode-parser 2.2.0 takes the words apart, the modal machine below is
// separate from the judge's. Prints the end points of all cutting moves, mm, as JSON.
const { parseStringSync } = require('gcode-parser');
function read(text) {
  const moves = []; let pos = [0, 0, 0], unit = 1, abs = true, motion = 0, plane = 17, retract = 98, cyc = null;
  parseStringSync(text).forEach((l, n) => {
    const g = l.words.filter(w => w[0] === 'G').map(w => w[1]), v = {};
    for (const [k, x] of l.words) if (!'GMTNO'.includes(k)) { if (typeof x !== 'number') throw Error(`line ${n + 1}: bad number ${k}${x}`); v[k] = x; }
    for (const c of g) {                       // modal words act before motion, wherever they stand in the line
      if (c === 20) unit = 25.4; else if (c === 21) unit = 1; else if (c === 90) abs = true; else if (c === 91) abs = false;
      else if (c === 98 || c === 99) retract = c; else if (c === 17 || c === 18 || c === 19) plane = c;
      else if (c === 80) { motion = null; cyc = null; } else if ([0, 1, 2, 3].includes(c)) { motion = c; cyc = null; }
      else if ([81, 82, 83, 73].includes(c)) { motion = c; cyc = { z0: pos[2] }; }
      else if (![40, 43, 49, 54, 55, 56, 57, 58, 59, 61, 64, 94, 4, 53, 28, 91.1, 97].includes(c)) throw Error(`line ${n + 1}: G${c} not understood`);
    }
    if (g.includes(28) || g.includes(53) || g.includes(4) || !'XYZIJKR'.split('').some(k => k in v)) return;
    if (motion === null) throw Error(`line ${n + 1}: axis words without a motion mode`);
    const at = (k, i) => k in v ? (abs ? 0 : pos[i]) + v[k] * unit : pos[i];
    const add = (m, to, more) => { moves.push({ line: n + 1, motion: 'G' + m, from: pos, to, ...more }); pos = to; };
    if (motion === 0 || motion === 1) return add(motion, [at('X', 0), at('Y', 1), at('Z', 2)]);
    if (motion === 2 || motion === 3) {
      if (plane !== 17) throw Error(`line ${n + 1}: arc outside G17`);
      const to = [at('X', 0), at('Y', 1), at('Z', 2)]; let c;
      if ('R' in v) {
        const dx = to[0] - pos[0], dy = to[1] - pos[1], d = Math.hypot(dx, dy), r = v.R * unit, h2 = r * r - d * d / 4;
        if (d === 0 || h2 < -1e-3) throw Error(`line ${n + 1}: impossible R arc`);
        const h = Math.sqrt(Math.max(h2, 0)) * ((motion === 3) === (r > 0) ? 1 : -1);
        c = [pos[0] + dx / 2 - dy / d * h, pos[1] + dy / 2 + dx / d * h];
      } else c = [pos[0] + (v.I || 0) * unit, pos[1] + (v.J || 0) * unit];
      const r0 = Math.hypot(pos[0] - c[0], pos[1] - c[1]), r1 = Math.hypot(to[0] - c[0], to[1] - c[1]);
      if (Math.abs(r0 - r1) > 0.005 + 0.001 * r0) throw Error(`line ${n + 1}: arc radii differ ${r0} ${r1}`);
      return add(motion, to, { centre: c, radius: r0 });
    }
    for (const k of 'ZRQ') if (k in v) cyc[k] = v[k] * unit;   // canned cycle: sticky words
    const top = abs ? cyc.R : cyc.z0 + cyc.R, bottom = abs ? cyc.Z : top + cyc.Z, back = retract === 98 ? Math.max(cyc.z0, top) : top;
    for (let rep = v.L || 1; rep > 0; rep--) {
      const x = at('X', 0), y = at('Y', 1);
      if (pos[2] < top) add(0, [pos[0], pos[1], top], { cycle: motion });
      add(0, [x, y, pos[2]], { cycle: motion }); if (pos[2] > top) add(0, [x, y, top], { cycle: motion });
      if (motion === 83 || motion === 73) { if (!(cyc.Q > 0)) throw Error(`line ${n + 1}: peck without Q`);
        for (let z = top; z > bottom + 1e-9;) { const nz = Math.max(bottom, z - cyc.Q); if (z < top) add(0, [x, y, z], { cycle: motion }); add(1, [x, y, nz], { cycle: motion }); if (motion === 83) add(0, [x, y, top], { cycle: motion }); z = nz; } }
      else add(1, [x, y, bottom], { cycle: motion });
      add(0, [x, y, back], { cycle: motion });
    }
  });
  return moves;
}
const cuts = read(require('fs').readFileSync(process.argv[2], 'utf8')).filter((m) => m.motion !== 'G0');
process.stdout.write(JSON.stringify(cuts.map((m) => m.to)));

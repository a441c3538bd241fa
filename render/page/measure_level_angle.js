// levelAngle is the mathematics of a phone as a level: directions in degrees.
function levelAngle() {
  "use strict";

  const degrees = Math.PI / 180;

  // up is which way is up in the phone's own frame (x to the right of its screen, y to its
  // top, z out of it): the third row of the rotation that takes that frame to the earth's,
  // Z(alpha) X(beta) Y(gamma) (W3C, Device Orientation and Motion, section 3.1).
  function up(beta, gamma) {
    const [b, g] = [beta * degrees, gamma * degrees];
    return { x: -Math.cos(b) * Math.sin(g), y: Math.sin(b), z: Math.cos(b) * Math.cos(g) };
  }

  // face is which way the phone's screen looks, in the earth's frame: the third column of
  // that rotation. Unlike the three angles it doesn't leap where the phone stands on edge.
  function face(alpha, beta, gamma) {
    const [[ca, sa], [cb, sb], [cg, sg]] = [alpha, beta, gamma].map((v) => [Math.cos(v * degrees), Math.sin(v * degrees)]);
    return { x: ca * sg + sa * sb * cg, y: sa * sg - ca * sb * cg, z: cb * cg };
  }

  // between is the angle between two directions in space.
  const between = (a, b) => Math.acos(Math.min(1, Math.max(-1, a.x * b.x + a.y * b.y + a.z * b.z))) / degrees;

  // direction is that of the line that an edge lies along, anticlockwise from level as one
  // looks at the drawing. At first the phone's top is toward the line's end and its screen
  // toward who looks: the line is (cos a, sin a), the phone's y is that and its x is
  // (sin a, -cos a), so up, (0, 1), is (-cos a, sin a) in the phone. Turned end for end its
  // top is toward the line's beginning and its screen away, and up is (-cos a, -sin a).
  const direction = (is, turned) => Math.atan2(turned ? -is.y : is.y, -is.x) / degrees;

  // apart is by how much a direction is past another, from -180 to 180.
  function apart(a, b) {
    const d = (a - b) % 360;
    return d > 180 ? d - 360 : d <= -180 ? d + 360 : d;
  }

  // mean is of directions that lie near one another, and scatter their standard deviation.
  function mean(list) {
    const about = list.reduce((sum, one) => sum + apart(one, list[0]), 0) / list.length;
    return apart(list[0] + about, 0);
  }
  function scatter(list) {
    const middle = mean(list);
    return Math.sqrt(list.reduce((sum, one) => sum + apart(one, middle) ** 2, 0) / Math.max(1, list.length - 1));
  }
  const spread = (list) => Math.max(...list.map((one) => Math.abs(apart(one, mean(list)))));

  // least is what a phone's level is sure to within, degrees, where it was checked against
  // nothing: sensors are set no better when they are made (common practice, no source).
  const least = 0.5;

  // both is what two readings tell, each a list of directions: the line's direction is their
  // mean; half of what they are apart is what the sensor is out against the edge. checked:
  // to within how many degrees the phone was; null: it was not.
  function both(first, second, checked) {
    const [a, b] = [mean(first), mean(second)];
    const apartBy = apart(b, a);
    const is = apart(a + apartBy / 2, 0);
    const scatters = [scatter(first), scatter(second)];
    const within = Math.max(checked ?? least, 2 * Math.hypot(...scatters) / 2);
    return { is, offset: -apartBy / 2, scatters, within };
  }

  return { up, face, between, direction, apart, mean, scatter, spread, both };
}

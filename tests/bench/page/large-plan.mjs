/** How many tanks beside each other make a row of the grid that they are put on, and how far apart they are, degrees. */
const ROW = 25;
const APART = { lon: 0.00008, lat: 0.00006 };

/** The demo plan with so many tanks in all, each copy of the first with a delivery line of its own while routes last. */
export function largePlan(demo, { points, routes }) {
  const plan = structuredClone(demo);
  plan.rillwright.name = `Demo with ${points} points`;
  const { features } = plan;
  const count = (type) => features.filter(({ geometry }) => geometry.type === type).length;
  const delivery = features.find(({ properties }) => properties.role === 'delivery');
  const tank = features.find(({ id, properties }) => (id ?? properties.id) === delivery.properties.to);
  for (let at = 0; count('Point') < points; at += 1) {
    const copy = structuredClone(tank);
    const name = `bench-${at}`;
    copy.id = name;
    copy.properties.name = `Tank ${at}`;
    copy.geometry.coordinates[0] += APART.lon * ((at % ROW) - ROW / 2);
    copy.geometry.coordinates[1] += APART.lat * (Math.floor(at / ROW) - points / ROW / 2);
    features.push(copy);
    if (count('LineString') < routes) features.push(lineTo(delivery, copy, at));
  }
  return plan;
}

function lineTo(delivery, tank, at) {
  const line = structuredClone(delivery);
  line.id = `bench-line-${at}`;
  line.properties.name = `Line ${at}`;
  line.properties.to = tank.id;
  line.geometry.coordinates[line.geometry.coordinates.length - 1] = tank.geometry.coordinates;
  return line;
}

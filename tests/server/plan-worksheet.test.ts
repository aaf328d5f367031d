// The worksheet that comes with each fall of a plan over HTTP: what was recorded of rot, seams, limbs above and saplings at the
// stump reaches it.
import { afterEach, beforeEach, expect, it } from 'vitest';
import { type House, house } from './desk.ts';

let woods: House;
beforeEach(async () => {
  woods = await house({ empty: true });
  await woods.record('stake-set', { label: 'S', position: '35.9532, -81.7461' });
  await woods.record('group-laid-out', { label: 'G1' });
});
afterEach(() => woods.end());

const mark = (more: Readonly<Record<string, unknown>>) =>
  woods.record('stem-marked', {
    mark: 'cut',
    tag: 'A',
    group: 'G1',
    dbh: '40 cm',
    height: '20 m',
    lean: '1 m at 0 true',
    position: '0 true, 10 m from stake S',
    ...more,
  });

type Fall = Readonly<{
  aim: { aim: number };
  worksheet: {
    method: string;
    notch: { opening: number };
    hinge: { wanted: number; sound: number };
    shell?: { strengthLeft: number };
    stop: string[];
  };
  sides: { label: string; from?: string; against: { left: string[]; right: string[] } }[];
}>;

async function fallOf(query = ''): Promise<Fall> {
  const answer = await woods.ask(`/api/groups/G1/plan${query}`);
  expect(answer.status, await answer.clone().text()).toBe(200);
  const [fall] = ((await answer.json()) as { falls: Fall[] }).falls;
  if (fall === undefined) throw new Error('no fall is planned');
  return fall;
}

it('has the shell that was measured: 3 in 10 of the radius leave 76 % of the bending strength', async () => {
  await mark({});
  await woods.record('decay-measured', { stem: 'A', found: 'hollow', shell: '6 cm' });
  const { worksheet } = await fallOf();
  // Huang et al. 2017, R. Soc. Open Sci. 4:160972, Fig. 6.
  expect(worksheet.shell?.strengthLeft).toBeCloseTo(0.76, 3);
  expect(worksheet.hinge.sound).toBeLessThan(worksheet.hinge.wanted);
});

it('has every open seam, turned to true north: two to the sides of the aim shorten the hinge, one at the back does not', async () => {
  await mark({ seams: ['60 true', '300 true'] });
  const sides = await fallOf('?fix=A=0%20true');
  expect(sides.aim.aim).toBe(0);
  // Worked in tests/felling/stem/worksheet.test.ts for two seams: under 30 cm of 32.
  expect(sides.worksheet.hinge.sound).toBeLessThan(0.3);
  await woods.record('stem-measured', { stem: 'A', seams: ['180 true'] });
  const back = await fallOf('?fix=A=0%20true');
  expect(back.worksheet.hinge.sound).toBeCloseTo(0.32, 6);
});

it('says stop where rot is known of and nobody measured it, and what help to get', async () => {
  await mark({ decaySigns: 'conks' });
  expect((await fallOf()).worksheet.stop.join(' ')).toMatch(
    /nobody measured.*Stop\..*winch and rope.*machine.*climber/,
  );
});

it('takes the kind of notch that is asked for', async () => {
  await mark({});
  expect((await fallOf('?notch=Humboldt')).worksheet).toMatchObject({
    method: 'humboldt',
    notch: { opening: 45 },
  });
  expect((await fallOf()).worksheet).toMatchObject({ method: 'open face', notch: { opening: 70 } });
});

it('says from which side to bore past a sapling at the stump, and what speaks against each side', async () => {
  await mark({ decaySigns: 'dead-limbs', lean: '1 m at 0 true' });
  await woods.record('sapling-protected', { label: 's1', position: '2 true, 9.7 m from stake S' });
  const { sides } = await fallOf('?fix=A=0%20true&slope=25&downhill=270%20true');
  expect(sides).toMatchObject([{ label: 's1', from: 'left' }]);
  expect(sides[0]?.against.left.join(' ')).toMatch(/downhill side.*Noted above it: dead limbs/);
  expect(sides[0]?.against.right.join(' ')).toMatch(/s1 stands on that side/);
});

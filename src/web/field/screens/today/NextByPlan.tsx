// The place for what comes next by a felling plan. There are no plans yet, so it shows nothing; once there are, it must
// show nothing again as soon as an entry contradicts what the plan was made from.
import type { Group } from '../../../../stand/index.ts';

export function NextByPlan(_asked: Readonly<{ group: Group | undefined }>): null {
  return null;
}

// The commands that show what the entries add up to: the stand, findings, layers, reports.
import type { Adding } from './adding.ts';

export function addLooking({ on, command, moments }: Adding): void {
  on(
    moments(
      command('stand', 'Print the stand as it is, or was.', [
        'stand',
        'stand --group G1',
        'stand --at "2026-03-14 14:30"',
        'stand --by class',
        'stand --by species --block "North cove" --since 2026-01-01',
        'stand --by class --around "stake A" --radius "60 ft"',
        'stand --known-at 120 --json',
      ]),
    )
      .option('--group <group>', 'only this group')
      .option('--by <rows>', 'before, removed, lost and left, in rows by class, species or group')
      .option('--classes <limits>', 'with --by class: lower limits of the classes, such as "5, 10, 16 in"')
      .option('--around <place>', 'with --by: only the zone round a stake or stem, such as "stake A"')
      .option('--radius <distance>', 'with --around: how far the zone reaches')
      .option('--block <block>', 'with --by: only this block')
      .option('--since <time>', 'with --by: what was cut or lost before that time was not there')
      .option(
        '--floor <dbh>',
        'with --by: smallest DBH that is counted; the tally floor of the block if left out',
      )
      .option('--units <units>', "with --by: us or metric; the logbook's own if left out"),
    () => import('../stand.ts'),
  );
  on(
    moments(
      command(
        'figures <what> [stem]',
        'Compute volume, value, decay, a butt log with rot in it, stumps, plots, regeneration, damage, openings, trees at lines, strips along water, hours of sun, lays against aims.',
        [
          'figures volume --rule international-quarter-inch --form-class 78',
          'figures volume --rule cubic-feet --form 0.45 --group G1',
          'figures value --rule doyle --form-class 78 --stems removed',
          'figures decay --group G1',
          'figures butt A12 --rule doyle --small-end "14 in" --length "16 ft"',
          'figures log --rule international-table --small-end "14.2 in, 13.6 in" --length "16 ft 5 in" --defects "rot 6 x 5 in 4 ft"',
          'figures log --rule smalian --small-end "12 in" --large-end "15 in" --length "16 ft"',
          'figures stand --by species --json',
          'figures plots',
          'figures plots --rule international-quarter-inch --form-class 78',
          'figures regeneration --group G1 --stocked-from 2',
          'figures damage --limit "64 in2"',
          'figures traverse --legs "45 true 200 ft; 135 true 150 ft; 225 true 200 ft; 315 true 151 ft" --adjust',
          'figures moved --since-size 120',
          'figures zones --zone 17S',
          'figures openings --period "10 years"',
          'figures lines',
          'figures buffers --feature stream --width "50 ft" --per-percent "2 ft" --above "10 %" --along slope',
          'figures sun --group G1',
          'figures aims',
          'figures aims --by "Dell Pruitt"',
        ],
      ),
    )
      .option('--group <group>', 'only this group; the one that decay is compared for')
      .option('--block <block>', 'only this block')
      .option('--since <time>', 'what was cut or lost before that time was not there')
      .option('--floor <dbh>', 'smallest DBH that is counted')
      .option('--units <units>', "us or metric; the logbook's own if left out")
      .option('--by <what>', 'stand: rows by class, species or group; aims: of which person')
      .option('--classes <limits>', 'stand: lower limits of the classes, such as "5, 10, 16 in"')
      .option('--around <place>', 'stand and volume: only the zone round a stake or stem, such as "stake A"')
      .option('--radius <distance>', 'with --around: how far the zone reaches')
      .option(
        '--rule <rule>',
        'doyle, scribner, international-quarter-inch; standing trees also cubic-feet, cubic-metres; logs also scribner-decimal-c, international-table, vermont; log also smalian, huber, newton, cone, neiloid',
      )
      .option(
        '--form-class <percent>',
        'volume and plots in board feet: Girard form class of the stand, such as 78',
      )
      .option('--form <form>', 'volume and plots of solid wood: form factor, or paraboloid, cone, neiloid')
      .option('--equation <name>', 'volume and plots of solid wood: honer, by the species of each stem')
      .option(
        '--small-end <diameter>',
        'log and butt: diameter inside bark; two readings at right angles with a comma',
      )
      .option('--middle <diameter>', 'log: diameter half way along, for huber and newton')
      .option(
        '--large-end <diameter>',
        'log and butt: diameter at the other end; gives the taper of a long log',
      )
      .option('--length <length>', 'log: its whole length; butt: the length that is scaled')
      .option('--trim <length>', 'log and butt: taken off the length first; 4 in for a log, none for a butt')
      .option(
        '--taper <taper>',
        'log and butt: of a log that is scaled in parts, such as "0.125 in/ft" or "1 cm/m"',
      )
      .option('--half <way>', 'log: down or up, where an exact half inch goes; down if left out')
      .option('--defects <defects>', 'log: such as "rot 6 x 5 in 4 ft; sweep 4 in"')
      .option('--product <product>', 'butt: money by the recorded price list, for this product')
      .option('--grade <grade>', 'butt: with --product, the grade of the log with its cull')
      .option('--grade-jump-butted <grade>', 'butt: with --product, the grade without its butt')
      .option(
        '--price-with-cull <money>',
        'butt: money per thousand board feet of the log as it is, such as "300 USD"',
      )
      .option('--price-jump-butted <money>', 'butt: the same of the log without its butt')
      .option('--legs <legs>', 'traverse: azimuth and distance of each leg, with semicolons between them')
      .option('--adjust', 'traverse: also adjust it by the compass rule')
      .option('--since-size <size>', 'moved: how many entries the log held then')
      .option('--point <place>', 'zones: which place; all blocks if left out')
      .option('--zone <zone>', 'zones: explain a zone as somebody wrote it, such as 17S')
      .option('--period <years>', 'openings: years of the rolling period; 10 if left out')
      .option('--feature <feature>', 'buffers: its label, or what it is, such as stream; all if left out')
      .option('--width <width>', 'buffers: how wide the strip is')
      .option('--per-percent <width>', 'buffers: how much wider for each percent of slope')
      .option('--above <slope>', 'buffers: from which slope on it is wider')
      .option('--along <how>', 'buffers: level or slope, how the width is measured; level if left out')
      .option('--stems <which>', 'value: before, removed, lost or left; removed if left out')
      .option('--buyers <class>', 'value and butt: whose price list, where there are several')
      .option(
        '--stocked-from <count>',
        'regeneration: how many young trees make a plot stocked; 1 if left out',
      )
      .option('--limit <area>', 'damage: from which area on a wound is large; 100 in2 if left out')
      .option('--within <distance>', 'damage: how far from a lay a leave tree is near it; 20 ft if left out'),
    () => import('../figures.ts'),
  );
  on(
    moments(
      command('findings', 'Print what an auditor would ask about.', [
        'findings',
        'findings --group G1',
        'findings --all',
      ]),
    )
      .option('--group <group>', 'only this group')
      .option('--all', 'findings about the record one by one, and settled ones too'),
    () => import('../findings.ts'),
  );
  for (const [name, help, examples, load] of [
    [
      'plan <group>',
      'Compute in which order and direction to fell a group, and what each fall puts at risk.',
      [
        'plan G2',
        'plan G2 --wedges --slope "15 %" --downhill "210 mag"',
        'plan G2 --fix "B3=95 true" --before "B3=B1"',
        'plan G2 --assume "directionError=8" --adopt',
        'plan G2 --wedges --measure-next',
        'plan G2 --wedges --map plan.pdf',
      ],
      () => import('../plan.ts'),
    ],
    [
      'worksheet <stem>',
      "Work out notch, hinge and ways out for one stem, aimed as in its group's plan.",
      ['worksheet B3', 'worksheet B3 --fix "B3=95 true" --notch humboldt'],
      () => import('../worksheet.ts'),
    ],
  ] as const) {
    const it = moments(command(name, help, examples))
      .option('--fix <aims>', 'settle aims, such as "A12=95 true, A14=180 mag"')
      .option('--place <places>', 'settle places in the order, such as "A12=1"')
      .option('--before <pairs>', 'what has to be down first, such as "A12=A14" for A12 before A14')
      .option('--last <stems>', 'stems to fell after all others')
      .option('--slope <percent>', 'how steep the ground is; with --downhill')
      .option('--downhill <azimuth>', 'which way is straight down, such as "210 mag"')
      .option('--wind <speed>', 'mean wind, such as "8 mph"; as noted last that day if left out, else calm')
      .option('--wedges', 'wedges are at hand')
      .option('--winch', 'a winch is at hand, and somebody trained in it')
      .option(
        '--people <places>',
        'where people work or stay: "landing at 135 mag, 400 ft from stake A"; several with ;',
      )
      .option('--notch <kind>', 'open face, conventional or humboldt; open face if left out')
      .option('--assume <numbers>', 'assumptions of the model that are not the usual ones')
      .option(
        '--by <person>',
        'who plans and fells by it, with the numbers recorded for them; you if left out',
      );
    if (name === 'plan <group>')
      it.option('--measure-next', 'work out what to measure first; takes longer than the plan')
        .option('--map <file>', 'write the plan as a map to print and take along, an SVG or PDF file')
        .option('--adopt', 'record that this plan is adopted');
    on(it, load);
  }
  on(
    moments(
      command('replay <group>', 'Step through a group: what happened, what stood, what was at risk.', [
        'replay G1',
        'replay G1 --step',
      ]),
    ).option('--step', 'wait for Enter after each entry'),
    () => import('../replay.ts'),
  );
  on(
    moments(
      command('export [layer...]', 'Write map layers for desktop GIS.', [
        'export --out layers',
        'export stems lays --crs EPSG:2264 --out layers',
      ]),
    )
      .option('--out <folder>', 'where to write them', 'layers')
      .option(
        '--crs <code>',
        'projected, in this CRS; "working" for the logbook\'s own; left out: longitude and latitude (RFC 7946)',
      ),
    () => import('../export.ts'),
  );
  on(
    moments(
      command('report [which]', 'Write the harvest report, or the emergency card to carry.', [
        'report --out harvest.html',
        'report --group G1 --format json --out g1.json',
        'report --rule doyle --form-class 78 --out harvest.html',
        'report --out harvest.html --issue "county forester"',
        'report emergency-card --out card.html',
        'report emergency-card --block "North cove" --out card.html',
      ]),
    )
      .option('--group <group>', 'only this group; for the harvest report')
      .option('--block <block>', 'what holds for this block; for the emergency card')
      .option('--rule <rule>', 'print the standing volume by this rule; see "gapledger figures"')
      .option('--form-class <percent>', 'with --rule: form class of the stand')
      .option('--form <form>', 'with --rule cubic-feet: form factor or shape')
      .option('--format <format>', 'html or json; by the ending of --out if left out')
      .option('--out <file>', 'where to write it; standard output if left out')
      .option('--issue <to>', 'record that it was issued, and to which office')
      .option('--by <person>', 'with --issue: who issues it; you if left out'),
    () => import('../report.ts'),
  );
}

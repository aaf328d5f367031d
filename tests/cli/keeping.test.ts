// Nothing changed, nothing lost: verify, backup, restore, files written whole, a locked file.
import { spawn } from 'node:child_process';
import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openLogbook } from '../../src/log/store/index.ts';
import { demo, type Place, program, started } from './gapledger.ts';

/** Works on the file as somebody would who goes round the program: with the triggers taken off. */
function tamper(place: Place, name: string, work: (database: Database.Database) => void): void {
  const database = new Database(place.path(name));
  const triggers = database
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'trigger'")
    .all();
  for (const trigger of triggers) database.exec(`DROP TRIGGER "${trigger.name}"`);
  work(database);
  database.close();
}

describe('verify', () => {
  it('of a demo is 0; after one flipped byte 3, with the entry named', () => {
    const place = demo();
    expect(place.done(['verify'])).toMatch(/Verified: 178 entries/);
    // Its first 81 entries are those of the demo that fixtures/logbooks keeps; their head stands in the README there.
    const first = '81:6cb7c61e2fa02d7be9484a3ba1698c8f7f567fb59e8d3a111ba78ba4c9069083';
    expect(place.run(['verify', '--since', first]).code).toBe(0);
    tamper(place, 'demo.logbook', (database) => {
      const row = database
        .prepare<[], { bytes: Buffer }>('SELECT bytes FROM entry WHERE position = 30')
        .get();
      const bytes = Buffer.from(row?.bytes ?? '');
      bytes[40] = (bytes[40] ?? 0) ^ 1;
      expect(database.prepare('UPDATE entry SET bytes = ? WHERE position = 30').run(bytes).changes).toBe(1);
    });
    const { code, out, error } = place.run(['verify']);
    expect([code, out]).toEqual([3, expect.not.stringContaining('Verified')]);
    expect(error).toContain('entry 30');
    expect(place.run(['verify', '--json']).code).toBe(3);
  });

  it('an older file put back in place is caught by the head that this machine saw, and by one written down', () => {
    const place = started();
    place.done(['backup', 'early.logbook']);
    place.done(['record', 'note-written', '--text', 'later']);
    const { text } = place.json<{ head: { text: string } }>(['status']).head;
    // The early backup at another path is a sound logbook; only the head written down shows what is gone.
    const there = ['verify', '--logbook', place.path('early.logbook')];
    expect(place.run(there).code).toBe(0);
    expect(place.run([...there, '--since', text])).toMatchObject({ code: 3 });
    copyFileSync(place.path('early.logbook'), place.path('woods.logbook'));
    expect(place.run(['verify'])).toMatchObject({ code: 3 });
  });

  it('against its own head is 0, against one that is no head 2', () => {
    const place = demo();
    const { text } = place.json<{ head: { text: string } }>(['status']).head;
    expect(place.run(['verify', '--since', text]).code).toBe(0);
    expect(place.run(['verify', '--since', '81']).code).toBe(2);
  });
});

describe('backup and restore', () => {
  it('a backup holds everything; restored elsewhere it is the same log, and this machine a new device', () => {
    const place = demo();
    expect(place.done(['backup', 'copy.logbook'])).toContain('Backed up 178 entries');
    expect(place.done(['restore', 'copy.logbook', 'second.logbook'])).toContain('new device');
    const head = (name: string) =>
      (JSON.parse(place.done(['status', '--json', '--logbook', place.path(name)])) as { head: unknown }).head;
    expect(head('second.logbook')).toEqual(head('demo.logbook'));
    for (const words of [
      ['backup', 'copy.logbook'],
      ['restore', 'copy.logbook', 'second.logbook'],
    ])
      expect(place.run(words), words.join(' ')).toMatchObject({ code: 2 });
  });

  it('status reminds when there is none, and when the last one is older than seven days', async () => {
    const place = started();
    expect(place.done(['status'])).toContain('No backup has been made.');
    place.done(['backup', 'copy.logbook']);
    expect(place.json(['status'])).toMatchObject({ backupDue: false });
    const log = await openLogbook(place.path('woods.logbook'));
    const at = new Date(Date.now() - 8 * 86_400_000).toISOString();
    await log.noteBackup({ at, name: 'copy.logbook', head: await log.head() });
    await log.close();
    expect(place.json(['status'])).toMatchObject({ backupDue: true });
    expect(place.done(['status'])).toContain('That is 8 days ago. Make another');
  });
});

describe('files', () => {
  it('an export that is killed leaves whole files or none', async () => {
    const place = demo();
    for (let wait = 250; wait <= 700; wait += 90) {
      const child = spawn(process.execPath, [program, 'export', '--out', 'layers'], {
        cwd: place.folder,
        env: place.env,
        stdio: 'ignore',
      });
      // Asked for before the kill: a quick machine may be done by then.
      const ended = new Promise((resolve) => child.once('close', resolve));
      await new Promise((resolve) => setTimeout(resolve, wait));
      child.kill('SIGKILL');
      await ended;
      const files = existsSync(place.path('layers')) ? readdirSync(place.path('layers')) : [];
      for (const file of files.filter((name) => name.endsWith('.geojson')))
        expect(() => void JSON.parse(readFileSync(place.path(`layers/${file}`), 'utf8')), file).not.toThrow();
    }
    place.done(['export', '--out', 'layers']);
    expect(
      readdirSync(place.path('layers')).filter((name) => name.endsWith('.geojson')).length,
    ).toBeGreaterThan(5);
  });

  it('that cannot be written are named, and end with 1', () => {
    const place = demo();
    writeFileSync(place.path('in-the-way'), '');
    const { code, error } = place.run(['report', '--out', 'in-the-way/report.html']);
    expect([code, error]).toEqual([
      1,
      expect.stringContaining('in-the-way/report.html: could not be written'),
    ]);
  });

  it('a logbook that another program keeps locked ends with 5 and says so', () => {
    const place = started();
    const database = new Database(place.path('woods.logbook'));
    database.exec('BEGIN IMMEDIATE');
    const { code, error } = place.run(['record', 'note-written', '--text', 'x']);
    database.exec('ROLLBACK');
    database.close();
    expect([code, error]).toEqual([5, expect.stringContaining('locked')]);
    place.done(['record', 'note-written', '--text', 'x']);
  });
});

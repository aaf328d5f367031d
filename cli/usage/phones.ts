// The commands that let browsers and phones in.
import { exitHelp } from '../terminal/failure.ts';
import type { Adding } from './adding.ts';

export function addPhones({ program, on, command }: Adding): void {
  on(
    command('serve', 'Start the server on this machine, and with --lan for phones in its net.', [
      'serve',
      'serve --port 4747',
      'serve --lan',
      'serve --lan --role reader --address 192.168.1.10',
      'serve --lan --cert woods.example.crt --key woods.example.key',
    ])
      .option('--port <number>', 'port on this machine; 0 takes any (4747 if left out)')
      .option('--or-next', 'take another port when that one is taken')
      .option(
        '--lan',
        'let paired phones in the net of this computer in, over HTTPS, and show a code for one',
      )
      .option('--tls-port <number>', 'with --lan: port for HTTPS (4748 if left out)')
      .option(
        '--role <role>',
        'with --lan: role of the next device: reader, recorder or keeper (recorder if left out)',
      )
      .option(
        '--address <address>',
        'with --lan: where phones are sent, where this computer has several addresses',
      )
      .option('--cert <file>', 'with --lan: your own certificate chain (PEM) instead of the local authority')
      .option('--key <file>', 'with --lan: the private key of --cert (PEM)')
      .option('--by <person>', 'with --lan: in whose name pairing is recorded; you if left out'),
    () => import('../serve.ts'),
  );
  on(
    command('devices [words...]', 'List the paired devices, or revoke one.', [
      'devices',
      'devices --json',
      'devices revoke "Ann\'s phone" --reason "lost in the woods"',
    ])
      .option('--reason <text>', 'with revoke: why')
      .option('--by <person>', 'with revoke: who revokes it; you if left out'),
    () => import('../devices.ts'),
  );
  on(
    program
      .command('field-page')
      .description('Copy the field page for a host with HTTPS; entries then go by file.')
      .option('--to <folder>', 'where to copy it')
      .option('--json', 'print JSON')
      .addHelpText('after', `\nExamples:\n  gapledger field-page --to public/woods\n\n${exitHelp}`),
    () => import('../field-page.ts'),
  );
}

// What is done on which phone, step by step. The names of menus are from memory of both systems; makers and versions
// name them a little differently, and the guide says so.
import type { Line } from './picture.ts';

export type Step = Readonly<{
  title: string;
  /** What to do, in sentences. */
  words: readonly string[];
  /** Where on the phone, menu by menu. */
  path?: readonly string[];
  picture: Readonly<{ said: string; heading: string; lines: readonly Line[] }>;
  /** This step takes the certificate, or compares its fingerprint, or opens the field page. */
  does?: 'take' | 'compare' | 'open';
}>;
export type Guide = Readonly<{
  name: string;
  title: string;
  steps: readonly Step[];
  /** How trust is taken back later. */
  removal: Readonly<{ words: string; path: readonly string[] }>;
}>;

const take = (words: readonly string[]): Step => ({
  title: 'Take the certificate',
  words,
  does: 'take',
  picture: {
    said: 'Drawing: this page in the browser, with the button "Take the certificate" ringed.',
    heading: 'This page',
    lines: [
      { text: 'http://…/trust/', as: 'address' },
      { text: 'Take the certificate', as: 'button', ringed: true },
    ],
  },
});
const compare = (words: readonly string[], path: readonly string[]): Step => ({
  title: 'Compare the fingerprint',
  words: [
    ...words,
    'If a single pair differs, somebody stands between this phone and the computer: remove the certificate at once and do not go on.',
  ],
  path,
  does: 'compare',
  picture: {
    said: 'Drawing: the details of the certificate, with its SHA-256 fingerprint ringed.',
    heading: 'Gapledger on …',
    lines: [
      { text: 'Fingerprint, SHA-256', as: 'words' },
      { text: '4F:A2:…:9C:07', as: 'code', ringed: true },
      { text: 'as on the computer?', as: 'words' },
    ],
  },
});
const open = (words: readonly string[]): Step => ({
  title: 'Open the field page',
  words,
  does: 'open',
  picture: {
    said: 'Drawing: the field page in the browser; its address begins with https.',
    heading: 'Field page',
    lines: [
      { text: 'https://…/field/', as: 'address', ringed: true },
      { text: 'Code from the computer', as: 'words' },
    ],
  },
});

export const guides: readonly Guide[] = [
  {
    name: 'android',
    title: 'Android, with Chrome',
    steps: [
      take([
        'Chrome saves it among the downloads and may ask whether to keep it: yes. It does not install it by itself.',
      ]),
      {
        title: 'Find the place in the settings',
        words: [
          'Quickest: open the phone’s settings and search there for “CA certificate”. Otherwise go this way:',
        ],
        path: [
          'Settings',
          'Security and privacy',
          'More security settings',
          'Encryption and credentials',
          'Install a certificate',
          'CA certificate',
        ],
        picture: {
          said: 'Drawing: the menu "Install a certificate" with the row "CA certificate" ringed.',
          heading: 'Install a certificate',
          lines: [{ text: 'CA certificate', ringed: true }, { text: 'VPN and app user' }, { text: 'Wi-Fi' }],
        },
      },
      {
        title: 'Read the warning, then go on',
        words: [
          'The phone warns that your data may be seen. The warning is right in general; what it means here stands below under “What trusting means”. Go on only in the net of your own computer. The phone asks for its PIN or pattern; one that has none must be given one.',
        ],
        picture: {
          said: 'Drawing: a warning, and below it the button "Install anyway" ringed.',
          heading: 'CA certificate',
          lines: [
            { text: 'A warning', as: 'warning' },
            { text: 'Install anyway', as: 'button', ringed: true },
          ],
        },
      },
      {
        title: 'Choose the file',
        words: ['It is called gapledger.crt and lies among the downloads.'],
        picture: {
          said: 'Drawing: the list of downloads with the file gapledger.crt ringed.',
          heading: 'Downloads',
          lines: [{ text: 'gapledger.crt', ringed: true }, { text: 'other files' }],
        },
      },
      compare(
        [
          'The phone lists what you have added yourself. Tap “Gapledger on …” and look for the SHA-256 fingerprint.',
        ],
        [
          'Settings',
          'Security and privacy',
          'More security settings',
          'Encryption and credentials',
          'Trusted credentials',
          'User',
        ],
      ),
      open([
        'The address now begins with https and there is no warning. Then put the page on the home screen with Chrome’s menu (three dots): it opens without a signal from there.',
      ]),
    ],
    removal: {
      words: 'Open “Gapledger on …” and choose Remove.',
      path: [
        'Settings',
        'Security and privacy',
        'More security settings',
        'Encryption and credentials',
        'Trusted credentials',
        'User',
      ],
    },
  },
  {
    name: 'iphone',
    title: 'iPhone or iPad, with Safari',
    steps: [
      take([
        'It must be Safari; other browsers cannot do this. Safari asks whether the page may load a configuration profile: allow it.',
      ]),
      {
        title: 'Install the profile',
        words: [
          'The settings show “Profile Downloaded” near the top for a few minutes. Tap it, then Install, and give the phone’s code. It says “Not Verified”, because no public authority stands behind your computer.',
        ],
        path: ['Settings', 'Profile Downloaded', 'Install'],
        picture: {
          said: 'Drawing: the settings with the row "Profile Downloaded" ringed.',
          heading: 'Settings',
          lines: [
            { text: 'your name', as: 'words' },
            { text: 'Profile Downloaded', ringed: true },
            { text: 'Wi-Fi' },
          ],
        },
      },
      compare(
        [
          'Open the profile, then More Details, then the certificate, and look for the SHA-256 fingerprint at the end.',
        ],
        ['Settings', 'General', 'VPN & Device Management', 'Gapledger on …', 'More Details'],
      ),
      {
        title: 'Switch trust on',
        words: ['Installed is not yet trusted. At the very end of “About” is the switch for it.'],
        path: ['Settings', 'General', 'About', 'Certificate Trust Settings'],
        picture: {
          said: 'Drawing: the certificate trust settings; the switch beside "Gapledger on …" is on and ringed.',
          heading: 'Certificate Trust',
          lines: [
            { text: 'full trust for', as: 'words' },
            { text: 'Gapledger on …', as: 'switch', ringed: true },
          ],
        },
      },
      open([
        'The address now begins with https and there is no warning. Then tap Share and “Add to Home Screen”, and open it from there from then on: Safari may clear what a page in a tab has kept after a week without use.',
      ]),
    ],
    removal: {
      words: 'Open “Gapledger on …” and choose Remove Profile.',
      path: ['Settings', 'General', 'VPN & Device Management'],
    },
  },
];

import type { GuidePage } from '../page';

export const records = {
  cautions: {
    lead: 'Each danger of bench work is read once per job, by itself, and recorded. It then stays in view as one line where it applies.',
    parts: [
      {
        title: 'What the words mean',
        points: [
          'DANGER: not avoided, it will kill or maim.',
          'WARNING: not avoided, it could.',
          'CAUTION: not avoided, it could hurt somewhat.',
        ],
      },
      {
        title: 'Why only once',
        points: [
          'A prompt at every step is tapped away blind. Once, in full, is read.',
          'When conditions change – another place, another person, another kind of work – read them again: tap the line.',
        ],
      },
      {
        title: 'Who decides',
        points: [
          'The manufacturer’s service information, local rules and trained people decide what is safe. This app and this guide don’t.',
          'Where this guide and the service information differ, the service information is right.',
        ],
      },
    ],
    cautions: [
      'Not sure whether a vehicle carries high voltage? Find out before anything is opened.',
      'Stop when something isn’t as described. Nothing here is so urgent.',
    ],
    sources: [{ work: 'ANSI Z535.4 (signal words)' }, 'practice'],
    see: ['clutch_air', 'after_cleaning', 'valve_train', 'gauge_at_taps'],
    words: 'safety danger warning caution hazard high voltage hot oil hybrid',
  },
  units: {
    lead: 'Every number is kept once, in SI units, as it was typed. Units only change how it is shown.',
    parts: [
      {
        title: 'Changing units',
        points: [
          'For everything: in the settings. For one field: the key with the unit beside it.',
          'While a number is being typed, changing its unit says which unit you meant: the digits stay.',
          'Once it is stored, changing the unit shows the same value in another unit: the value stays.',
        ],
      },
      {
        title: 'Easily confused',
        points: [
          'inHg counts vacuum downward from the air around; a barometer in inHg counts upward from nothing. The app asks for each by its own name.',
          'psi at a tap counts from the air around as well.',
          'Clearance is given on the diameter here. On the radius it is half of that.',
          'A thou is a thousandth of an inch, 25.4 µm.',
        ],
      },
    ],
    sources: [{ work: 'NIST SP 811 (conversion factors); inch of mercury, conventional, 0 °C' }],
    see: ['uncertainty', 'air', 'journal'],
    words: 'psi kPa bar inHg inch mm thou micron Celsius Fahrenheit convert SI',
  },
  journal: {
    lead: 'Everything that is put on record stays: who, when, with which instrument. A correction stands beside what it corrects.',
    parts: [
      {
        title: 'What it keeps',
        points: [
          'Each reading as it was typed, with its unit.',
          'Each correction, with the first figure struck through beside it.',
          'Each undo, and each bringing back. Undo takes back this device’s last change, also after a restart.',
          'Each decision with what it rested on.',
        ],
      },
      {
        title: 'What it doesn’t keep',
        points: [
          'What is only being typed. That is a draft on this device: it survives a dead battery, and nobody else sees it.',
          'Customers’ names, telephones and plates are kept apart, so that they can be left out and erased.',
        ],
      },
      {
        title: 'Where to see it',
        points: ['“History” in the menu of a job or a test, latest first.'],
      },
    ],
    why: ['A record that can be changed without a trace convinces nobody: neither a customer nor yourself in a year.'],
    sources: ['practice'],
    see: ['decision', 'passing_on', 'lost_phone'],
    words: 'history undo redo correction draft audit record erase',
  },
  passing_on: {
    lead: 'There is no server. Work goes from device to device as a file: by cable, stick, message or whatever you trust.',
    how: [
      '“Pass this job on” in a job’s menu, or “Pass the shop on” for all of it.',
      'Say whether customers’ names go along. They are left out unless you ask for it.',
      'Set a passphrase if the way isn’t safe, and tell it by another way than the file.',
      'Save or send the file.',
      'Whoever gets it opens it here, sees first what it would bring and who signed it, and then takes it in or not.',
    ],
    why: [
      'Every change is signed by the device that made it, and stays so through all hands. An altered file is refused as a whole.',
      'The same file twice changes nothing. Two people may work apart and join their work later, in any order.',
    ],
    cannot: [
      'A signature says that nothing was altered since. It doesn’t say that a device belongs to the person named: ask.',
      'A passphrase that is lost can’t be found again by anybody.',
    ],
    sources: ['practice'],
    see: ['journal', 'lost_phone'],
    words: 'share send export import bundle file vvb merge sync signed passphrase colleague',
  },
  lost_phone: {
    lead: 'What was only on the phone is gone with it. What was passed on or backed up elsewhere isn’t.',
    parts: [
      {
        title: 'Before it happens',
        points: [
          'Lock the phone with a code. The shop’s file is as safe as the phone is.',
          'Pass the shop on to a second device regularly, with customers’ data only where they may be.',
          'The backups that the app makes lie on the same device. They help against damage, not against loss.',
        ],
      },
      {
        title: 'When it has happened',
        points: [
          'Lock or wipe the phone from afar, if it was set up for that.',
          'On the other device go on with what was passed on last. Nothing has to be told to it.',
          'Tell the others that this device is gone. What arrives from it later, they should look at twice: the plan shows which device signed.',
          'If customers’ names were on it, local law may ask you to tell them.',
        ],
      },
      {
        title: 'When it turns up again',
        points: ['Pass its work on from it as usual. It joins what was done meanwhile, and both stand.'],
      },
    ],
    cannot: ['Nobody can fetch records from a phone that is gone. There is no server that has them.'],
    sources: ['practice'],
    see: ['passing_on', 'journal'],
    words: 'stolen lost broken backup restore phone device theft privacy',
  },
} as const satisfies Record<string, GuidePage>;

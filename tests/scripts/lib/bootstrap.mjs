// Brings a machine that has only Rust and Node to where the app builds and, for tests, where it
// can be driven. Says what it installs and why; does nothing that is done already.
import { readFileSync, existsSync } from 'node:fs';
import path from 'node:path';
import { CARGO, Plain, ROOT, must, output, say } from './run.mjs';

/** Debian packages, each with its reason. */
const TO_BUILD = {
  'build-essential': 'the C compiler, for SQLite, and the linker that Rust calls',
};
const TO_OPEN = {
  'pkg-config': 'finds the libraries below',
  'libgtk-3-dev': "the app's window",
  'libwebkit2gtk-4.1-dev': 'the web view that shows the interface',
};
const TO_TEST = {
  xvfb: 'a display for the real app that nobody has to look at',
  'webkit2gtk-driver': 'drives the real app',
  scrot: 'takes its picture',
  xdotool: "presses keys in the system's own dialogs, which the driver can't reach",
  dbus: 'the session bus over which a second start reaches the first',
  'chromium-headless-shell': 'runs the interface as a browser does, without a window around it',
  python3: 'reads bundles with a reader of its own',
  'poppler-utils': 'reads printed reports back as text',
};

/** Checks Node and Rust, installs Debian packages and npm packages that are missing. */
export async function bootstrap({ window = true, tests = false } = {}) {
  checkTools();
  await installDebianPackages({
    ...TO_BUILD,
    ...(window ? TO_OPEN : {}),
    ...(tests ? TO_TEST : {}),
  });
  await installNodePackages();
}

function checkTools() {
  const needed = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8')).engines.node;
  if (!atLeast(process.versions.node, needed)) {
    throw new Plain(`Node ${needed} is needed; this is ${process.versions.node}.`);
  }
  const rust = /^rust-version = "(.+)"$/m.exec(
    readFileSync(path.join(CARGO, 'Cargo.toml'), 'utf8'),
  )?.[1];
  const found = /^cargo (\S+)/.exec(output('cargo', ['--version']) ?? '')?.[1];
  if (!found) throw new Plain('Rust is needed (https://rustup.rs): there is no `cargo` here.');
  if (!atLeast(found, rust)) throw new Plain(`Rust ${rust} or newer is needed; this is ${found}.`);
}

function atLeast(found, needed) {
  const [f, n] = [found, needed].map((text) => text.replace(/^\D+/, '').split('.').map(Number));
  for (let i = 0; i < n.length; i += 1) {
    if ((f[i] ?? 0) !== n[i]) return (f[i] ?? 0) > n[i];
  }
  return true;
}

async function installDebianPackages(reasons) {
  const names = Object.keys(reasons);
  if (process.platform !== 'linux' || output('dpkg-query', ['--version']) === null) {
    if (process.platform === 'linux' && names.length > 0) {
      say(`This is no Debian: what ${names.join(', ')} hold must be installed already.`);
    }
    return;
  }
  const missing = names.filter((name) => !isInstalled(name));
  if (missing.length === 0) return;

  say('These Debian packages are missing and will be installed with apt-get:');
  for (const name of missing) say(`  ${name}: ${reasons[name]}`);
  const install = ['install', '--yes', '--no-install-recommends', ...missing];
  const isRoot = process.getuid() === 0;
  if (!isRoot && output('sudo', ['--version']) === null) {
    throw new Plain(`That takes root, and there is no sudo. As root: apt-get ${install.join(' ')}`);
  }
  if (!isRoot) say('sudo may ask for your password.');
  const environment = 'DEBIAN_FRONTEND=noninteractive';
  const [command, before] = isRoot
    ? ['env', [environment, 'apt-get']]
    : ['sudo', ['env', environment, 'apt-get']];
  await must(command, [...before, 'update', '--quiet']);
  await must(command, [...before, ...install]);
}

function isInstalled(name) {
  const status = output('dpkg-query', ['--show', '--showformat=${db:Status-Status}', name]);
  return status === 'installed';
}

async function installNodePackages() {
  if (nodePackagesMatch()) return;
  say('Installing the npm packages that package-lock.json names (npm ci).');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  await must(npm, ['ci', '--no-audit', '--no-fund'], { shell: process.platform === 'win32' });
}

/**
 * Whether node_modules holds what package-lock.json asks for. The versions are compared, not the
 * files' times: a fresh checkout and a branch change leave any order of times.
 */
function nodePackagesMatch() {
  const inside = path.join(ROOT, 'node_modules', '.package-lock.json');
  if (!existsSync(inside)) return false;
  const read = (file) => JSON.parse(readFileSync(file, 'utf8')).packages;
  const wanted = read(path.join(ROOT, 'package-lock.json'));
  const present = read(inside);
  const same = (name) => present[name]?.version === wanted[name]?.version;
  return (
    Object.keys(present).every(same) &&
    Object.keys(wanted).every((name) => name === '' || wanted[name].optional || same(name))
  );
}

import type { Command } from 'commander';
import { askedFolder, printJson } from '../saved-data.ts';

const INVITATION = 'Tap any key with each click, as evenly as you can: 20 clicks. Ctrl-C breaks off.\n';

/** `standside tap`: how late the click reaches the player, for the picture to wait as long. */
export function addTapCommand(program: Command): void {
  program
    .command('tap')
    .description('measure how late the click reaches you: tap along, and get the line for the settings file')
    .option('--json', 'print JSON')
    .action(async ({ json }: { json?: boolean }, command: Command) => {
      const { Trouble } = await import('../../common/trouble.ts');
      const { readSettings } = await import('../../runtime/files/settings.ts');
      const { runTapTest, terminalKeys } = await import('../../runtime/tap-test.ts');
      if (!process.stdin.isTTY)
        throw new Trouble('The tap test listens for keys and needs a terminal; here the input is not one.', 2);
      const folder = (await askedFolder(command)).path;
      const { settings } = await readSettings(folder);
      process.stderr.write(INVITATION);
      const test = await runTapTest(settings, terminalKeys(process.stdin));
      if (!test) throw new Trouble('The tap test was broken off; nothing has changed.', 130);
      if (!test.heard) throw new Trouble("There is no sound to tap to; 'standside doctor' tells why.");
      if (!test.result)
        throw new Trouble(
          'Too few taps came near the clicks, or they were too uneven. Nothing has changed; try once more.',
        );
      const { offset, spread, used } = test.result;
      if (json) printJson({ 'tap offset': offset, spread, used });
      else {
        process.stdout.write(
          `Your taps come ${Math.abs(offset)} ms ${offset < 0 ? 'before' : 'after'} the click (${used} taps, ` +
            `give or take ${spread} ms).\n`,
        );
        process.stdout.write(
          `To let the picture follow, put this line into settings.yaml in ${folder}:\n\ntap offset: ${offset}\n`,
        );
      }
    });
}

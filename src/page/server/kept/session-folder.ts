import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { writeBeside } from '../../../picture/beside.ts';

/** Where the page keeps what it needs of a design, beside it. */
const FOLDER = '.tenter/page';

/** The folder of the work, and the places in it that are the page's own. The artwork itself is never touched. */
export class SessionFolder {
  /** What is saved goes here. */
  readonly home: string;
  /** Works under way. */
  readonly works: string;
  /** Pictures that were dropped onto the page. */
  readonly opened: string;
  /** Recipes and resists that commands name. */
  readonly recipes: string;

  /** @param home The folder beside whose artwork all this stands. */
  constructor(home: string) {
    this.home = home;
    this.works = join(home, FOLDER, 'works');
    this.opened = join(home, FOLDER, 'opened');
    this.recipes = join(home, FOLDER, 'recipes');
  }

  /** Written beside and renamed: a server that is killed leaves the last one whole. */
  write(path: string, text: string): Promise<void> {
    return writeBeside(path, { overwrite: true }, (beside) => writeFile(beside, text));
  }
}

// Samples, points and seed of a run.

import { leadingLoss } from '../../model/project/lossCriteria'
import type { Project } from '../../model/schema/project'
import { countText } from '../../numerics/numberText'
import { setRerun, useRerun } from '../../store/idleRuns'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'
import { SAMPLE_CHOICES, type YieldSettings } from './yieldSettings'

const SAMPLES = SAMPLE_CHOICES.map((count) => ({
  value: String(count),
  label: countText(count),
}))
const METHODS = [
  { value: 'sobol', label: 'Sobol' },
  { value: 'random', label: 'pseudo-random' },
]

export function RunSettings({
  project,
  settings,
  onSet,
}: {
  readonly project: Project
  readonly settings: YieldSettings
  readonly onSet: (settings: YieldSettings) => void
}) {
  const rerun = useRerun()
  return (
    <>
      <div className="run-settings quantities">
        <ChoiceField
          label="Samples"
          value={String(settings.samples)}
          choices={SAMPLES}
          onChoose={(value) => onSet({ ...settings, samples: Number(value) })}
        />
        <ChoiceField
          label="Points"
          value={settings.method}
          choices={METHODS}
          onChoose={(value) => onSet({ ...settings, method: value === 'random' ? 'random' : 'sobol' })}
        />
        <TextField
          numeric
          label="Seed"
          text={String(project.seed)}
          onCommit={numberCommit('Seed', [0, 4_294_967_295], true, (seed) =>
            editProject((draft) => {
              draft.seed = seed
            }),
          )}
        />
        <TextField
          numeric
          label="Stopping accuracy, ± dB"
          text={String(settings.stopAtDb)}
          onCommit={numberCommit('Stopping accuracy, ± dB', [0, 10], false, (stopAtDb) =>
            onSet({ ...settings, stopAtDb }),
          )}
        />
      </div>
      <p className="quiet">
        The run stops early once P{leadingLoss(project.requirements).percentile} is known within this ± at 95
        % confidence; 0 runs all samples.
      </p>
      <label className="rerun">
        <input type="checkbox" checked={rerun} onChange={(event) => setRerun(event.target.checked)} /> Rerun
        when idle, after a change
      </label>
    </>
  )
}

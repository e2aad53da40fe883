// The mount: two stacks of layers from one common anchor to the two end faces.

import { chipJoint, ofJoint } from '../../model/designs/jointNames'
import { usualMount } from '../../model/designs/usualMount'
import { quantityOf } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Mount, MountLayer } from '../../model/schema/mount'
import { byId } from '../../model/words/byId'
import { MOUNT_AXES, MOUNT_SIDES, type MountSide } from '../../model/words/mount'
import { rounded } from '../../numerics/numberText'
import { SOLID_NAMES, SOLIDS } from '../../optics/index'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityField } from '../../ui/fields/QuantityField'

/** Where the layers of a side end: at the end face that the mount holds against the facet. */
function sideTitle(side: MountSide, { chain }: Candidate): string {
  if (side === 'chipSide') return 'Chip side, from the anchor to the facet'
  const joint = chipJoint(chain)
  return ofJoint(`Fibre side, from the anchor to the end face of the ${joint?.near ?? 'fibre'}`, joint)
}
const TYPED = 'typed'
const ppm = (perKelvin: number) => rounded(perKelvin * 1e6, 3)
const MATERIALS = [
  ...SOLID_NAMES.map((value) => ({ value, label: `${value}, ${ppm(SOLIDS[value].perKelvin)} ppm/K` })),
  { value: TYPED, label: 'entered CTE' },
]
const AXES = [
  { value: 'x', label: 'x, along chip' },
  { value: 'y', label: 'y, normal' },
  { value: 'z', label: 'z, optical axis' },
]

const newLayer = (): MountLayer => ({
  expansion: { kind: 'material', material: 'borosilicate glass' },
  axis: 'y',
  length: quantityOf(1, 'mm', 'estimate'),
})

export function MountFields({ candidate }: { readonly candidate: Candidate }) {
  const edit = (recipe: (own: Candidate) => void) =>
    editProject((draft) => {
      const own = byId(draft.candidates, candidate.id)
      if (own !== undefined) recipe(own)
    })
  const editLayers = (side: MountSide, recipe: (layers: MountLayer[]) => void) =>
    edit((own) => {
      if (own.mount !== undefined) recipe(own.mount[side])
    })
  const { mount } = candidate
  if (mount === undefined) {
    return (
      <p>
        No mount defined: only the refractive indices change with temperature (reference 20 °C).{' '}
        <button
          type="button"
          onClick={() =>
            edit((own) => {
              own.mount = usualMount()
            })
          }
        >
          Define the mount
        </button>
      </p>
    )
  }
  return (
    <fieldset className="assembly">
      <legend className="visually-hidden">Mount</legend>
      <div className="mount-top">
        <QuantityField
          label="Assembly temperature"
          quantity={mount.assemblyTemperature}
          ruleName="temperature"
          find={(draft) => byId(draft.candidates, candidate.id)?.mount?.assemblyTemperature}
        />
        <p className="quiet">
          Both stacks start at one common anchor. The length of a layer is measured along its axis towards the
          joint; it is negative if the layer runs the other way.
        </p>
        <button
          type="button"
          className="subtle"
          onClick={() =>
            edit((own) => {
              own.mount = undefined
            })
          }
        >
          Remove the mount
        </button>
      </div>
      <div className="mount-sides">
        {MOUNT_SIDES.map((side) => (
          <fieldset key={side} className="mount-side">
            <legend>{sideTitle(side, candidate)}</legend>
            {mount[side].map((layer, at) => (
              <LayerFields
                // biome-ignore lint/suspicious/noArrayIndexKey: layers have no other identity than their place
                key={at}
                layer={layer}
                at={at}
                side={side}
                candidateId={candidate.id}
                editLayers={(recipe) => editLayers(side, recipe)}
              />
            ))}
            <button
              type="button"
              className="subtle"
              onClick={() => editLayers(side, (layers) => void layers.push(newLayer()))}
            >
              Add layer to the {side === 'fibreSide' ? 'fibre' : 'chip'} side
            </button>
          </fieldset>
        ))}
      </div>
    </fieldset>
  )
}

function LayerFields({
  layer,
  at,
  side,
  candidateId,
  editLayers,
}: {
  readonly layer: MountLayer
  readonly at: number
  readonly side: MountSide
  readonly candidateId: string
  readonly editLayers: (recipe: (layers: MountLayer[]) => void) => void
}) {
  const name = `${side === 'fibreSide' ? 'fibre' : 'chip'} ${at + 1}`
  const editOwn = (recipe: (own: MountLayer) => void) =>
    editLayers((layers) => {
      const own = layers[at]
      if (own !== undefined) recipe(own)
    })
  const choose = (value: string) =>
    editOwn((own) => {
      const material = SOLID_NAMES.find((each) => each === value)
      own.expansion =
        material === undefined
          ? { kind: 'value', expansion: quantityOf(5, 'ppm/K', 'data sheet') }
          : { kind: 'material', material }
    })
  const layerOf = (mount: Mount | undefined) => mount?.[side][at]
  return (
    <div className="mount-layer">
      <div>
        <ChoiceField
          label={`Material, ${name}`}
          value={layer.expansion.kind === 'material' ? layer.expansion.material : TYPED}
          choices={MATERIALS}
          onChoose={choose}
        />
        {layer.expansion.kind === 'material' && (
          <p className="quiet layer-source">{SOLIDS[layer.expansion.material].source}</p>
        )}
      </div>
      {layer.expansion.kind === 'value' && (
        <QuantityField
          label={`CTE, ${name}`}
          quantity={layer.expansion.expansion}
          ruleName="expansion"
          find={(draft) => {
            const own = layerOf(byId(draft.candidates, candidateId)?.mount)
            return own?.expansion.kind === 'value' ? own.expansion.expansion : undefined
          }}
        />
      )}
      <ChoiceField
        label={`Axis, ${name}`}
        value={layer.axis}
        choices={AXES}
        onChoose={(value) =>
          editOwn((own) => {
            own.axis = MOUNT_AXES.find((each) => each === value) ?? own.axis
          })
        }
      />
      <QuantityField
        label={`Length, ${name}`}
        quantity={layer.length}
        ruleName="mountLength"
        find={(draft) => layerOf(byId(draft.candidates, candidateId)?.mount)?.length}
      />
      <button
        type="button"
        className="subtle"
        onClick={() => editLayers((layers) => void layers.splice(at, 1))}
      >
        Delete<span className="visually-hidden"> layer {name}</span>
      </button>
    </div>
  )
}

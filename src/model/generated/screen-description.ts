// Made by `npm run generate` from schemas/. Do not edit.

/**
 * A screen in a few words, from which a first configuration is built: what stands in the room and what the booth plays. Models name the loudspeaker data that goes with it.
 */
export interface ScreenDescription {
/**
 * Where this schema is, for editors.
 */
readonly $schema?: string
/**
 * Kind of document.
 */
readonly kind: "boothkeep.screen-description"
/**
 * Version of this schema that the document follows. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly schemaVersion: string
/**
 * The auditorium.
 */
readonly screen: {
/**
 * Stable key of the site.
 */
readonly siteId: string
/**
 * Name of the site.
 */
readonly siteName: string
/**
 * Stable key of the screen inside the site.
 */
readonly screenId: string
/**
 * Name of the screen.
 */
readonly screenName: string
/**
 * Number of seats.
 */
readonly seats: number
/**
 * Air temperature for the speed of sound, in degrees Celsius.
 */
readonly temperatureC: number
/**
 * Delay of the picture behind the server's output in milliseconds.
 */
readonly videoLatencyMs: number
/**
 * Inner size of the room.
 */
readonly geometry?: {
/**
 * Screen to rear wall in metres.
 */
readonly lengthM: number
/**
 * Width in metres.
 */
readonly widthM: number
/**
 * Height in metres.
 */
readonly heightM: number
}
/**
 * Remarks.
 */
readonly notes?: string
}
/**
 * The unit in the booth.
 */
readonly unit: {
/**
 * Unit profile that says what this model can do.
 */
readonly profileId: string
/**
 * Serial number as on the unit.
 */
readonly serial: string
/**
 * Firmware version. Semantic Versioning 2.0.0: MAJOR.MINOR.PATCH.
 */
readonly firmware: string
/**
 * Sample rate of the signal processing in hertz. Default: the profile's first.
 */
readonly sampleRateHz?: number
/**
 * Name by which the unit calls itself. Default: the screen's name, shortened to what the unit takes.
 */
readonly label?: string
}
/**
 * Formats that the booth plays, a preset each. The first is the auditorium's own: it says which surround channels there are.
 * 
 * @minItems 1
 * @maxItems 6
 * 
 * Items: Soundfield group of SMPTE ST 428-12:2013, or stereo (SMPTE ST 2067-8:2013).
 */
readonly formats: readonly ("mono" | "stereo" | "5.1" | "6.1" | "7.1DS" | "7.1SDS")[]
/**
 * The server. Its positions follow ISDCF Document 4 (2017).
 */
readonly source: {
/**
 * Kind of interface: AES3 digital, AES67 network, analogue multichannel.
 */
readonly kind: ("aes3" | "aes67" | "analog-multichannel")
/**
 * Time from the server's sound output to the unit in milliseconds.
 */
readonly latencyMs: number
}
/**
 * The loudspeakers behind the screen, all of one model.
 */
readonly screenLoudspeakers: {
/**
 * Screen channels: left, center, right, or five with left center and right center.
 */
readonly channels: (3 | 5)
/**
 * Model in the loudspeaker data.
 */
readonly model: string
/**
 * How the loudspeakers are wired. It must be the drive of the model: a crossover for another drive destroys drivers.
 */
readonly drive: ("passive" | "active-2" | "active-3" | "active-4")
/**
 * Distance to the reference seat in metres.
 */
readonly distancesM: {
/**
 * Left.
 */
readonly left: number
/**
 * Left center.
 */
readonly leftCenter?: number
/**
 * Center.
 */
readonly center: number
/**
 * Right center.
 */
readonly rightCenter?: number
/**
 * Right.
 */
readonly right: number
}
}
/**
 * Surround arrays, each on an output of its own.
 * 
 * @minItems 0
 * @maxItems 32
 * 
 * Items: One array.
 */
readonly surroundArrays: {
/**
 * Where the array hangs.
 */
readonly placement: ("surround-left" | "surround-right" | "surround-left-side" | "surround-right-side" | "surround-left-rear" | "surround-right-rear" | "surround-rear")
/**
 * Model in the loudspeaker data.
 */
readonly model: string
/**
 * Loudspeakers in the array, in parallel.
 */
readonly boxes: number
/**
 * Distance from the nearest box to the reference seat in metres.
 */
readonly distanceM: number
}[]
/**
 * Subwoofers, each item on an output of its own.
 * 
 * @minItems 0
 * @maxItems 16
 * 
 * Items: One subwoofer, or several as one.
 */
readonly subwoofers: {
/**
 * Model in the loudspeaker data.
 */
readonly model: string
/**
 * Boxes on the output, in parallel.
 */
readonly boxes: number
/**
 * Distance to the reference seat in metres.
 */
readonly distanceM: number
}[]
/**
 * How much later than the screen the surrounds arrive at the reference seat, in milliseconds. Default 15.
 */
readonly surroundAfterMs?: number
/**
 * There is a transmitter for the hearing-impaired channel. Default false.
 */
readonly hearingImpaired?: boolean
/**
 * There is a transmitter for the narration channel. Default false.
 */
readonly narration?: boolean
/**
 * There is a monitor in the booth. Default false.
 */
readonly boothMonitor?: boolean
/**
 * The contact of the fire alarm. Sound returns by hand only; local codes and licensed practice decide what is required.
 */
readonly emergencyMute: {
/**
 * Control connector of the unit profile.
 */
readonly connectorId: string
/**
 * State of the contact that mutes. closed-loop practice: an open (broken) loop mutes.
 */
readonly activeWhen: ("open" | "closed")
}
/**
 * Network.
 */
readonly network: {
/**
 * Host name.
 */
readonly hostname: string
/**
 * Interfaces.
 * 
 * @minItems 0
 * @maxItems 16
 */
readonly interfaces: readonly NetworkInterface[]
}
/**
 * Remarks on the whole configuration.
 */
readonly notes?: string
}
/**
 * One network interface of the unit.
 * 
 * This interface was referenced by `ScreenDescription`'s JSON-Schema
 * via the `definition` "NetworkInterface".
 */
export interface NetworkInterface {
/**
 * Stable key.
 */
readonly id: string
/**
 * Name.
 */
readonly label: string
/**
 * What it is for.
 */
readonly purpose: ("control" | "audio")
/**
 * fixed address, or automatic (DHCP).
 */
readonly mode: ("fixed" | "automatic")
/**
 * IPv4 address in dotted-decimal form.
 */
readonly address?: string
/**
 * Length of the network prefix in bits.
 */
readonly prefixLength?: number
/**
 * IPv4 address of the gateway.
 */
readonly gateway?: string
}

using System.Runtime.CompilerServices;
using Clackbeat.Words;

namespace Clackbeat.Shared;

/// <summary>Loads the catalogue before the tests, so that an exception's text is the English sentence, as in the program.</summary>
internal static class SpeaksEnglish
{
    [ModuleInitializer]
    internal static void Load() => RuntimeHelpers.RunClassConstructor(typeof(Catalogue).TypeHandle);
}
